using System.Text.Json;
using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.HeldResults;

/// <summary>Results that wait for a person.</summary>
internal static class HeldEndpoints
{
    public const string Tag = "Held results";
    private const int UsualPage = 100;
    private const int MostHeldAPage = 1000;

    private const string Held = """
        {"heldId":"h_0c5t9x2m7h1ka","source":"valley-laboratory","sourceId":"77-002","reason":"tube-animal-mismatch",
         "text":"The tube is another animal's than the one named.","received":"2026-10-09T15:00:00Z",
         "content":{"sourceId":"77-002","animal":"1043","tube":"R12-003","sampled":"2026-10-08","outcome":"open"},"closes":["1042","1043"],
         "candidates":[{"animal":"1042","pen":"4","reasons":["the label of R12-003 is hers, drawn on 2026-10-08","her sample of that day waits for a result"]},
           {"animal":"1043","pen":"4","reasons":["'1043' is her name"]}]}
        """;

    public static void MapHeldResults(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/held-results", List)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe(Tag, "listHeldResults", "What waits for a person", """
                The latest first, each with the animals it may be of and what speaks for them. While it waits, prostaglandin is withheld from every animal
                it may mean.
                """)
            .Takes(new ParameterDoc("state", "Which; absent = open.", "open") { Words = ["open", "settled", "all"] })
            .Takes(new ParameterDoc("after", "`next` of the page before.", ""))
            .Takes(new ParameterDoc("limit", "Most of a page, 1 to 1000; absent = 100.", "100", "integer"))
            .AnswersJson(200, "A page of held results.", typeof(HeldPage), $$"""{"held":[{{Held}}]}""")
            .Refuses(400);
        herd.MapGet("/held-results/{heldId}", Get)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe(Tag, "getHeldResult", "One held result", "What it says, whose it may be, and how it ended.")
            .AnswersJson(200, "The held result.", typeof(HeldAnswer), Held)
            .Refuses(400, 404);
        herd.MapHeldDecisions();
    }

    private static IResult List(HttpContext context, Store store)
    {
        var query = new QueryReader(context);
        var state = query.Word("state", "open", "settled", "all");
        var after = query.Text("after");
        var limit = query.Integer("limit", 1, MostHeldAPage, UsualPage);
        if (after is not null && !Cursor.IsValid(after))
        {
            query.Refuse("after", after, "`next` of an earlier page");
        }

        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var request = context.Herd();
        var page = store.Held.List(request.Herd, state switch { "settled" => false, "all" => null, _ => true }, after, limit);
        return Results.Ok(new HeldPage { Held = Answers(store, request, page.Items), Next = page.Next });
    }

    private static IResult Get(HttpContext context, Store store, string heldId)
    {
        if (new QueryReader(context).Done() is { } refusal)
        {
            return refusal;
        }

        var request = context.Herd();
        return store.Held.Find(request.Herd, heldId) is { } held ? Results.Ok(Answers(store, request, [held])[0]) : NotFound(heldId);
    }

    public static Problem NotFound(string heldId) => Problem.Of(ProblemTypes.HeldNotFound, $"The herd has no held result '{heldId}'.");

    private static List<HeldAnswer> Answers(Store store, HerdRequest request, IReadOnlyList<HeldResult> held)
    {
        var view = store.Views.Current(request.Herd, request.Now);
        return store.Rounds.Look(request.Herd, tubes =>
        {
            var candidates = new HeldCandidates(view, tubes);
            return held.Select(h => Answer(h, candidates.Of(h, HeldReading.Again(h, request)))).ToList();
        });
    }

    private static HeldAnswer Answer(HeldResult held, IReadOnlyList<HeldCandidateAnswer> candidates)
    {
        using var content = JsonDocument.Parse(held.Draft.Content);
        return new HeldAnswer
        {
            HeldId = held.HeldId,
            Source = held.Draft.Source,
            SourceId = held.Draft.SourceId,
            Reason = held.Draft.Reason,
            Text = HeldReading.Text(held.Draft.Reason),
            Received = held.Received,
            Content = content.RootElement.Clone(),
            Closes = held.End is null ? [.. held.Draft.MayMean.Append(held.Draft.Animal).OfType<string>().Distinct(StringComparer.Ordinal)] : [],
            Candidates = held.End is null ? candidates : [],
            Ended = held.End is { } end ? new HeldEndAnswer
            {
                Ending = end.Ending,
                By = end.By,
                At = end.At,
                Note = end.Note.Length == 0 ? null : end.Note,
                FactId = end.Fact?.ToString(),
            } : null,
        };
    }
}
