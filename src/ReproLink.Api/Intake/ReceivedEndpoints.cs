using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Intake;

/// <summary>What was received, line by line.</summary>
internal static class ReceivedEndpoints
{
    private const int UsualPage = 100;
    private const int MostLinesAPage = 1000;

    private const string Example = """
        {"lines":[{"batch":17,"item":2,"line":3,"file":"results-1009.csv","sender":"valley-laboratory","sentBy":"farm","at":"2026-10-09T15:00:00Z",
          "mediaType":"text/csv","header":"Lab no;Cow;Tube;Drawn;Result","text":"77-001;1042;R12-003;08/10/2026;NOT PREG","sourceId":"77-001",
          "decision":"accepted","factId":"f_0c5t9x2m7h1ka"}]}
        """;

    public static readonly Vocabulary<ReceivedDecision> Decisions = new(
        ("accepted", ReceivedDecision.Accepted), ("replaced", ReceivedDecision.Replaced), ("duplicate", ReceivedDecision.Duplicate),
        ("held", ReceivedDecision.Held), ("rejected", ReceivedDecision.Rejected));

    public static void MapReceived(this IEndpointRouteBuilder herd) => herd.MapGet("/received", Get)
        .WithMetadata(new Needs(Permissions.Read))
        .Describe("Received lines", "listReceived", "What was received", """
            Every line of every batch of results that was understood, as received, with what became of it: accepted, replaced, duplicate, held and rejected
            are all there are. A result that was held and assigned or released later is found by its fact too.
            """)
        .Takes(new ParameterDoc("fact", "The lines behind this fact.", "f_0c5t9x2m7h1ka"))
        .Takes(new ParameterDoc("held", "The lines behind this held result.", "h_0c5t9x2m7h1ka"))
        .Takes(new ParameterDoc("batch", "The lines of this batch.", "17", "integer"))
        .Takes(new ParameterDoc("decision", "Only those of which this became.", "rejected") { Words = [.. Decisions.Words] })
        .Takes(new ParameterDoc("sender", "Only this sender's.", "valley-laboratory"))
        .Takes(new ParameterDoc("after", "`next` of the page before.", ""))
        .Takes(new ParameterDoc("limit", "Most lines of a page, 1 to 1000; absent = 100.", "100", "integer"))
        .AnswersJson(200, "A page of lines.", typeof(ReceivedPage), Example)
        .Refuses(400);

    private static IResult Get(HttpContext context, Store store)
    {
        var query = new QueryReader(context);
        var fact = query.Text("fact");
        var id = default(FactId);
        if (fact is not null && !FactId.TryParse(fact, out id))
        {
            query.Refuse("fact", fact, "a fact's id, as answered");
        }

        var word = query.Word("decision", [.. Decisions.Words]);
        var batch = query.Integer("batch", 1, int.MaxValue, 0);
        var asked = new ReceivedQuery
        {
            Fact = fact is null ? null : id,
            HeldId = query.Text("held"),
            Batch = batch == 0 ? null : batch,
            Decision = word is not null && Decisions.TryRead(word, out var decision) ? decision : null,
            Sender = query.Text("sender"),
        };
        var after = query.Text("after");
        var limit = query.Integer("limit", 1, MostLinesAPage, UsualPage);
        if (after is not null && !Cursor.IsValid(after))
        {
            query.Refuse("after", after, "`next` of an earlier page");
        }

        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var page = store.Received.List(context.Herd().Herd, asked, after, limit);
        return Results.Ok(new ReceivedPage { Lines = [.. page.Items.Select(Answer)], Next = page.Next });
    }

    public static ReceivedLineAnswer Answer(StoredLine line) => new()
    {
        Batch = line.Batch,
        Item = line.Item,
        Line = line.Line,
        File = line.Name,
        Sender = line.Sender,
        SentBy = line.SentBy,
        At = line.At,
        MediaType = line.MediaType,
        Header = line.Header,
        Text = line.Raw,
        SourceId = line.SourceId,
        Decision = Decisions.Word(line.Decision),
        Why = line.Why,
        FactId = line.Fact?.ToString(),
        HeldId = line.HeldId,
    };

    /// <summary>Where each of some results came from.</summary>
    public static ILookup<FactId, ReceivedFromAnswer> Behind(Store store, Herd herd, IReadOnlyCollection<FactId> facts)
    {
        var lines = store.Received.Behind(herd, facts);
        return lines.SelectMany(l => l.Select(line => (l.Key, line))).ToLookup(l => l.Key, l => new ReceivedFromAnswer
        {
            Batch = l.line.Batch,
            Item = l.line.Item,
            Line = l.line.Line,
            File = l.line.Name,
            Sender = l.line.Sender,
            At = l.line.At,
        });
    }
}
