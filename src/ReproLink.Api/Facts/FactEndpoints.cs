using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
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
                Manager, exchange or veterinarian; the kind `confirm` needs a manager or veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(IReadOnlyList<FactInput>), "The facts.", FactExamples.Batch)
            .Reads(typeof(string), "The facts as CSV.", FactExamples.Csv, RequestBody.Csv)
            .AnswersJson(200, "The batch was understood; one answer an item.", typeof(FactResults), FactExamples.Results)
            .Refuses(400, 409, 413, 415);
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
            .Refuses(400, 409, 413, 415);
    }

    private static async Task<IResult> Post(HttpContext context, Store store)
    {
        var (batch, refusal) = await BatchBody.Read(context, FactCsv.Shape);
        using var _ = batch;
        if (batch is null)
        {
            return refusal!;
        }

        var (answers, drafts) = Judge(batch, context.Herd());
        return await Submitting.Submit(context, store, batch.Bytes, new Submission(drafts.ConvertAll(d => d.Draft), []), Answer);

        FactResults Answer(SubmissionAnswer stored, AnimalTraces traces)
        {
            for (var i = 0; i < drafts.Count; i++)
            {
                var (index, draft) = drafts[i];
                var id = stored.Facts[i].Id;
                answers[index] = FactMapping.Accepted(draft, stored.Facts[i], FactWarnings.For(traces, draft.Animal, id));
            }

            return new FactResults { Results = answers! };
        }
    }

    // What is rejected is answered already; the places of the others stay empty until they are stored.
    private static (FactResult?[] Answers, List<(int Index, FactDraft Draft)> Drafts) Judge(BatchBody batch, HerdRequest request)
    {
        var reader = new FactReader(request);
        var answers = new FactResult?[batch.Items.Count];
        var drafts = new List<(int, FactDraft)>(batch.Items.Count);
        foreach (var item in batch.Items)
        {
            if (item.Unreadable is { } unreadable)
            {
                answers[item.Index] = FactMapping.Rejected(item, null, [unreadable]);
                continue;
            }

            var problems = new FieldProblems();
            var (draft, sourceId) = reader.Read(item, problems);
            if (draft is not null)
            {
                drafts.Add((item.Index, draft));
            }
            else
            {
                answers[item.Index] = FactMapping.Rejected(item, sourceId, problems.List);
            }
        }

        return (answers, drafts);
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
