using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
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
            .Refuses(400, 404, 409, 413, 415);
        herd.MapPut("/sampling-rounds/{round}/tubes/{tube}", Put)
            .WithMetadata(new Needs(Permissions.PostFacts))
            .Describe(Tag, "putTube", "Say what became of a tube", """
                `drawn` and `short` record a sample of the animal on the label; `planned`, `not-drawn` and `broken` take that sample back. The last word
                counts, every word is kept. Of a dispatched tube only `broken` can be said. Manager, exchange or veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(TubeMarkInput), "What became of it.", """{"state":"drawn","time":"06:41","by":"Ana"}""")
            .AnswersJson(200, "It is recorded.", typeof(TubeMarkAnswer), RoundExamples.Mark)
            .Refuses(400, 404, 409, 413, 415);
        herd.MapPost("/sampling-rounds/{round}/dispatch", Dispatch)
            .WithMetadata(new Needs(Permissions.PostFacts))
            .Describe(Tag, "postDispatch", "Send tubes off", """
                Records that tubes left, and answers when their report is expected (rule L1). A tube that leaves more than 14 days after its draw is
                flagged: its result decides nothing (rule L3). Manager, exchange or veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(DispatchInput), "The tubes.", """{"at":"2026-10-08T15:00:00Z","by":"Ana"}""")
            .AnswersJson(201, "They left.", typeof(DispatchAnswer), RoundExamples.Dispatch)
            .Refuses(400, 404, 409, 413, 415);
    }

    private static async Task<IResult> Post(HttpContext context, Store store, string round)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var reader = new ObjectReader(body.Root, new FieldProblems());
        var (animal, redraws) = RoundReader.Tube(reader);
        if (RoundEndpoints.Find(store, request, round) is not { } found)
        {
            return RoundReplies.NoRound(round);
        }

        var view = store.Views.Current(request.Herd, request.Now);
        var added = animal is null ? null : RoundLists.InHerd(view, animal);
        if (animal is not null && added is null)
        {
            reader.Refuse("animal", ProblemTypes.AnimalNotFound, "the herd's own name of an animal that is in it");
        }

        var old = redraws is null ? null : RoundVocabulary.Tube(found.Number, redraws);
        if (redraws is not null && old is null)
        {
            reader.Refuse("redraws", ProblemTypes.InvalidValue, $"a tube of round {RoundVocabulary.Name(found.Number)}");
        }

        return reader.Problems.Any
            ? Problem.OfBody(reader.Problems.List)
            : await RoundEndpoints.Write(context, body.Bytes, new RoundReplies(request.Herd, round).Added, hand => added is not null
                ? store.Rounds.Add(request.Herd, found.Number, RoundLists.Plan(added, view, found.Day), hand)
                : store.Rounds.Redraw(request.Herd, found.Number, old!.Value, hand));
    }

    private static async Task<IResult> Put(HttpContext context, Store store, string round, string tube)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        if (RoundEndpoints.Find(store, request, round) is not { } found)
        {
            return RoundReplies.NoRound(round);
        }

        if (RoundVocabulary.Tube(found.Number, tube) is not { } number)
        {
            return RoundReplies.NoTube(round, tube);
        }

        var reader = new ObjectReader(body.Root, new FieldProblems());
        var mark = RoundReader.Mark(reader, request, found.Day);
        return reader.Problems.Any
            ? Problem.OfBody(reader.Problems.List)
            : await RoundEndpoints.Write(context, body.Bytes, new RoundReplies(request.Herd, round).Marked, hand => store.Rounds.Mark(request.Herd, found.Number, number, mark, hand));
    }

    private static async Task<IResult> Dispatch(HttpContext context, Store store, string round)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        if (RoundEndpoints.Find(store, request, round) is not { } found)
        {
            return RoundReplies.NoRound(round);
        }

        var reader = new ObjectReader(body.Root, new FieldProblems());
        var (names, at, by) = RoundReader.Dispatch(reader, request);
        var day = Day.From(at.InZone(request.Zone).Date);
        var numbers = Numbers(reader, found, names);
        RefuseBeforeDraw(reader, found, numbers, day);
        if (reader.Problems.Any)
        {
            return Problem.OfBody(reader.Problems.List);
        }

        var rules = store.Views.Current(request.Herd, request.Now).Rules;
        return await RoundEndpoints.Write(context, body.Bytes, answer => new RoundReplies(request.Herd, round).Sent(answer, rules),
            hand => store.Rounds.Send(request.Herd, found.Number, numbers, at, day, by, hand));
    }

    private static List<int>? Numbers(ObjectReader reader, Round round, IReadOnlyList<string>? names)
    {
        if (names is null)
        {
            return null;
        }

        var numbers = new List<int>(names.Count);
        for (var i = 0; i < names.Count; i++)
        {
            if (RoundVocabulary.Tube(round.Number, names[i]) is { } number && round.Find(number) is not null)
            {
                numbers.Add(number);
            }
            else
            {
                reader.Problems.Add(ProblemTypes.TubeNotFound, reader.Path("tubes", i), names[i], $"a tube of round {RoundVocabulary.Name(round.Number)}", $"The round has no tube '{names[i]}'.");
            }
        }

        return [.. numbers.Distinct()];
    }

    private static void RefuseBeforeDraw(ObjectReader reader, Round round, List<int>? numbers, Day day)
    {
        var early = round.Tubes.FirstOrDefault(t =>
            t.Standing.WaitsForDispatch && t.Standing.Marked!.Day > day && (numbers is null || numbers.Contains(t.Number)));
        if (early is not null)
        {
            reader.Refuse("at", ProblemTypes.InvalidValue, $"not before {early.Standing.Marked!.Day}, the day {early.Name} was drawn");
        }
    }
}
