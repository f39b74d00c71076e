using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Rounds;

/// <summary>What happens to the tubes of a round.</summary>
internal static class TubeEndpoints
{
    private const string Tag = "Sampling rounds";

    public static void MapTubes(this IEndpointRouteBuilder herd)
    {
        herd.MapPost("/sampling-rounds/{round}/tubes", Post)
            .WithMetadata(new Needs(Permissions.PostFacts))
            .Describe(Tag, "postTube", "Add a tube", """
                A late addition (`animal`), or a second draw into a new tube (`redraws`): the old tube is given up. It gets the next free number of the
                round. Manager, exchange or veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(TubeInput), "The animal, or the tube to draw again.", """{"redraws":"R12-003"}""")
            .AnswersJson(201, "It was added.", typeof(TubeMarkAnswer), RoundExamples.Mark)
            .Conflicts(RoundReplies.Conflicts)
            .Refuses(400, 404, 413, 415);
        herd.MapPut("/sampling-rounds/{round}/tubes/{tube}", Put)
            .WithMetadata(new Needs(Permissions.PostFacts))
            .Describe(Tag, "putTube", "Say what became of a tube", """
                `drawn` and `short` record a sample of the animal on the label; `planned`, `not-drawn` and `broken` take that sample back. The last word
                counts, every word is kept. Of a dispatched tube only `broken` can be said. Manager, exchange or veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(TubeMarkInput), "What became of it.", """{"state":"drawn","time":"06:41","by":"Ana"}""")
            .AnswersJson(200, "It is recorded.", typeof(TubeMarkAnswer), RoundExamples.Mark)
            .Conflicts(RoundReplies.Conflicts)
            .Refuses(400, 404, 413, 415);
        herd.MapPost("/sampling-rounds/{round}/dispatch", Dispatch)
            .WithMetadata(new Needs(Permissions.PostFacts))
            .Describe(Tag, "postDispatch", "Send tubes off", """
                Records that tubes left, and answers when their report is expected (rule L1). A tube that leaves more than 14 days after its draw is
                flagged: its result decides nothing (rule L3). Manager, exchange or veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(DispatchInput), "The tubes.", """{"at":"2026-10-08T15:00:00Z","by":"Ana"}""")
            .AnswersJson(201, "They left.", typeof(DispatchAnswer), RoundExamples.Dispatch)
            .Conflicts(RoundReplies.Conflicts)
            .Refuses(400, 404, 413, 415);
    }

    public static Task<IResult> Post(HttpContext context, Store store, string round) =>
        Write(context, store, (desk, reader, once) => desk.Add(round, reader, once));

    public static Task<IResult> Put(HttpContext context, Store store, string round, string tube) =>
        Write(context, store, (desk, reader, once) => desk.Mark(round, tube, reader, once));

    private static Task<IResult> Dispatch(HttpContext context, Store store, string round) =>
        Write(context, store, (desk, reader, once) => desk.Dispatch(round, reader, once));

    private static async Task<IResult> Write(HttpContext context, Store store, Func<RoundDesk, ObjectReader, IdempotencyRecord?, Task<DeskAnswer>> write)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        return body is null
            ? refusal!
            : await RoundDesk.Of(context, store).Answer(context, body.Bytes, (desk, once) => write(desk, new ObjectReader(body.Root, new FieldProblems()), once));
    }
}
