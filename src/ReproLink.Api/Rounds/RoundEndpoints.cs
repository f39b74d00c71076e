using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Rounds;

/// <summary>Rounds: frozen, listed, looked at.</summary>
internal static class RoundEndpoints
{
    private const string Tag = "Sampling rounds";
    private const int UsualPage = 20;
    private const int MostRoundsAPage = 100;

    public static void MapRounds(this IEndpointRouteBuilder herd)
    {
        herd.MapPost("/sampling-rounds", Post)
            .WithMetadata(new Needs(Permissions.PostFacts))
            .Describe(Tag, "postRound", "Freeze a list", """
                Takes the day's bleed list, or the animals named, in the order of pens and animals, and gives every animal a tube whose id is never used
                again in the herd. What the calendar says later no longer changes it: labels get printed from it. Manager, exchange or veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(RoundInput), "The round.", """{"date":"2026-10-08","name":"Thursday"}""")
            .AnswersJson(201, "It is frozen.", typeof(RoundDetail), RoundExamples.Detail)
            .Conflicts(ProblemTypes.NothingToFreeze)
            .Refuses(400, 413, 415);
        herd.MapGet("/sampling-rounds", List)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe(Tag, "listRounds", "The rounds", "The herd's rounds, the latest first, page by page.")
            .Takes(new ParameterDoc("after", "`next` of the page before.", ""))
            .Takes(new ParameterDoc("limit", "Most rounds of a page, 1 to 100; absent = 20.", "20", "integer"))
            .AnswersJson(200, "A page of rounds.", typeof(RoundPage), RoundExamples.Page)
            .Refuses(400);
        herd.MapGet("/sampling-rounds/{round}", Get)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe(Tag, "getRound", "One round", "Its tubes and where each stands, what left, what to take along, and the checklist.")
            .AnswersJson(200, "The round.", typeof(RoundDetail), RoundExamples.Detail)
            .Refuses(400, 404);
        herd.MapTubes();
    }

    private static async Task<IResult> Post(HttpContext context, Store store)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        return await RoundDesk.Of(context, store).Answer(context, body.Bytes, (desk, once) => desk.Freeze(new ObjectReader(body.Root, new FieldProblems()), once));
    }

    private static IResult List(HttpContext context, Store store)
    {
        var request = context.Herd();
        var query = new QueryReader(context);
        var after = query.Text("after");
        var limit = query.Integer("limit", 1, MostRoundsAPage, UsualPage);
        if (after is not null && !Cursor.IsValid(after))
        {
            query.Refuse("after", after, "`next` of an earlier page");
        }

        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var page = store.Rounds.List(request.Herd, after, limit);
        var mapping = RoundMapping.Of(store.Views.Current(request.Herd, request.Now));
        return Results.Ok(new RoundPage { Rounds = [.. page.Items.Select(mapping.Summary)], Next = page.Next });
    }

    private static IResult Get(HttpContext context, Store store, string round)
    {
        var request = context.Herd();
        if (new QueryReader(context).Done() is { } refusal)
        {
            return refusal;
        }

        return Find(store, request, round) is { } found
            ? Results.Ok(RoundMapping.Of(store.Views.Current(request.Herd, request.Now)).Detail(found))
            : RoundReplies.NoRound(round);
    }

    public static Round? Find(Store store, HerdRequest request, string round) =>
        RoundVocabulary.Round(round) is { } number ? store.Rounds.Find(request.Herd, number) : null;
}
