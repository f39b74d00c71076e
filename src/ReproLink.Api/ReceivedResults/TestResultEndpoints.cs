using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.ReceivedResults;

/// <summary>Results of tests and examinations come in.</summary>
internal static class TestResultEndpoints
{
    public static void MapTestResults(this IEndpointRouteBuilder herd)
    {
        herd.MapPost("/test-results", Post)
            .WithMetadata(new Needs(Permissions.PostResults))
            .Describe("Test results", "postTestResults", "Record results", """
                An array of up to 10,000 results, or CSV: with our own names as header, or, with `sender`, as that sender's saved mapping reads it. Each is
                tied to one animal and day, or held with the reason; a held result is stored, waits for a person, and closes the prostaglandin gate of
                every animal it may mean. A result held as `unknown-animal` is released by itself when the animal appears. Results that disagree with each
                other, or an outcome that disagrees with its value, are accepted with a warning. Every line is kept as received. Manager, exchange or
                veterinarian.
                """)
            .Takes(ReceivedBody.SenderDoc)
            .Takes(ReceivedBody.FileDoc)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(IReadOnlyList<TestResultInput>), "The results.", TestResultExamples.Batch)
            .Reads(typeof(string), "The results as CSV.", TestResultExamples.Csv, RequestBody.Csv)
            .AnswersJson(200, "The batch was understood; one answer an item.", typeof(TestResultAnswers), TestResultExamples.Answers)
            .Refuses(400, 404, 413, 415);
        herd.MapPost("/test-results/preview", PreviewEndpoint.Post)
            .WithMetadata(new Needs(Permissions.PostResults))
            .Describe("Test results", "previewTestResults", "See what results would do", """
                Reads a batch exactly as POST /test-results would, and answers what each line would come to. Nothing is stored. Manager, exchange or
                veterinarian.
                """)
            .Takes(ReceivedBody.SenderDoc)
            .Takes(ReceivedBody.FileDoc)
            .Reads(typeof(IReadOnlyList<TestResultInput>), "The results.", TestResultExamples.Batch)
            .Reads(typeof(string), "The results as CSV.", TestResultExamples.Csv, RequestBody.Csv)
            .AnswersJson(200, "The batch was understood; one line an item.", typeof(PreviewAnswer), TestResultExamples.Preview)
            .Refuses(400, 404, 413, 415);
    }

    private static async Task<IResult> Post(HttpContext context, Store store)
    {
        var (body, refusal) = await ReceivedBody.Read(context, store);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var intake = new ResultDesk(store, context.Herd()).Intake(body);
        return await Submitting.Submit(context, store, body.Batch.Bytes, intake.Submission, intake.Answers);
    }
}
