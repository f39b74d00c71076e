using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.Transfer;
using ReproLink.Records;

namespace ReproLink.Api.Facts;

/// <summary>The plain form of all facts.</summary>
internal static class FactEndpoints
{
    private const int MostFactsAPage = 1000;
    private const int UsualPage = 100;

    public static void MapFacts(this IEndpointRouteBuilder herd)
    {
        herd.MapPost("/facts", Post)
            .WithMetadata(new Needs(Permissions.PostFacts))
            .Describe("Facts", "postFacts", "Record facts", """
                An array of up to 10,000 facts, or CSV with the same names as header. Every item is answered, in order: the good ones are stored,
                the others rejected with everything that is wrong with them. The same `source` and `sourceId` with the same content again is a
                `duplicate`; with other content it replaces the earlier fact. A body that cannot be understood at all stores nothing.
                With `sender`, a CSV in that sender's own columns, read by the saved mapping: a line may then give several facts, and lines and columns that
                gave none are told. Manager, exchange or veterinarian; the kind `confirm` needs a manager or veterinarian.
                """)
            .Takes(FactBody.SenderDoc)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(IReadOnlyList<FactInput>), "The facts.", FactExamples.Batch)
            .Reads(typeof(string), "The facts as CSV.", FactExamples.Csv, RequestBody.Csv)
            .AnswersJson(200, "The batch was understood; one answer an item.", typeof(FactResults), FactExamples.Results)
            .Refuses(400, 404, 413, 415);
        herd.MapPost("/facts/preview", FactPreview.Post)
            .WithMetadata(new Needs(Permissions.PostFacts))
            .Describe("Facts", "previewFacts", "See what facts would do", """
                Reads a batch exactly as POST /facts would, and answers what would become of each fact. Nothing is stored. Manager, exchange or veterinarian.
                """)
            .Takes(FactBody.SenderDoc)
            .Reads(typeof(IReadOnlyList<FactInput>), "The facts.", FactExamples.Batch)
            .Reads(typeof(string), "The facts as CSV.", FactExamples.Csv, RequestBody.Csv)
            .AnswersJson(200, "The batch was understood; one line a fact.", typeof(FactPreviewAnswer), FactExamples.Preview)
            .Refuses(400, 404, 413, 415);
        herd.MapGet("/facts", List)
            .WithMetadata(new Needs(Permissions.Read))
            .Tags()
            .Describe("Facts", "listFacts", "Facts on record", "The facts that count, in the order they were recorded, page by page.")
            .Takes(new ParameterDoc("animal", "Only this animal's.", "1042"))
            .Takes(new ParameterDoc("after", "`next` of the page before.", ""))
            .Takes(new ParameterDoc("limit", "Most facts of a page, 1 to 1000; absent = 100.", "100", "integer"))
            .AnswersJson(200, "A page of facts.", typeof(FactPage), FactExamples.Page)
            .Refuses(400);
        herd.MapPost("/facts/{factId}/withdraw", WithdrawEndpoint.Post)
            .WithMetadata(new Needs(Permissions.PostFacts))
            .Describe("Facts", "withdrawFact", "Withdraw a fact", """
                The fact stays on record and stops counting: the calendar is as if it had never been. Results are withdrawn here too.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(WithdrawInput), "Why.", """{"reason":"wrong cow"}""")
            .AnswersJson(200, "It was withdrawn.", typeof(WithdrawAnswer), """{"factId":"f_0c5t9x2m7h1ka","status":"withdrawn"}""")
            .Conflicts(ProblemTypes.AlreadyWithdrawn)
            .Refuses(400, 413, 415);
    }

    private static async Task<IResult> Post(HttpContext context, Store store)
    {
        var (body, refusal) = await FactBody.Read(context, store);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var intake = new FactIntake(body, context.Herd());
        return await Submitting.Submit(context, store, body.Batch.Bytes, intake.Submission, intake.Answer);
    }

    private static IResult List(HttpContext context, Store store)
    {
        var query = new QueryReader(context);
        var animal = query.Text("animal");
        var after = query.Text("after");
        var limit = query.Integer("limit", 1, MostFactsAPage, UsualPage);
        if (after is not null && !Cursor.IsValid(after))
        {
            query.Refuse("after", after, "`next` of an earlier page");
        }

        if (query.Done() is { } refusal)
        {
            return refusal;
        }

        var page = store.Facts.List(context.Herd().Herd, animal, after, limit);
        return Results.Ok(new FactPage { Facts = [.. page.Items.Select(f => FactMapping.Answer(f.Animal, f.Fact))], Next = page.Next });
    }
}
