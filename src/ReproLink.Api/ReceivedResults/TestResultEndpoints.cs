using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.ReceivedResults;

/// <summary>Results of tests and examinations come in.</summary>
internal static class TestResultEndpoints
{
    private const string Batch = """
        [{"sourceId":"lab-77-001","animal":"1042","tube":"R12-003","sampled":"2026-10-08","reported":"2026-10-09T15:00:00Z",
          "method":"blood","specimen":"serum","outcome":"open","value":0.12,"unit":"S-N","assay":"herd-default"}]
        """;

    private const string Example = """
        {"results":[
          {"sourceId":"lab-77-001","status":"accepted","factId":"f_0c5t9x2m7h1ka","animal":"1042","decides":"open","warnings":[],
           "reasons":[{"rule":"T5","text":"open: the service of 10 September 2026 failed","facts":["f_0c5t9x2m7h1ka"]}]},
          {"sourceId":"lab-77-002","status":"held","heldId":"h_0c5t9x2m7h1ka","reason":"unknown-animal"}]}
        """;

    public static void MapTestResults(this IEndpointRouteBuilder herd) => herd.MapPost("/test-results", Post)
        .WithMetadata(new Needs(Permissions.PostResults))
        .Describe("Test results", "postTestResults", "Record results", """
            An array of up to 10,000 results. Each is tied to one animal and day, or held with the reason; a held result is stored, waits for a
            person, and closes the prostaglandin gate of every animal it may mean. A result held as `unknown-animal` is released by itself when the
            animal appears. Results that disagree with each other, or an outcome that disagrees with its value, are accepted with a warning.
            Manager or exchange.
            """)
        .Takes(IdempotencyHeader.Doc)
        .Reads(typeof(IReadOnlyList<TestResultInput>), "The results.", Batch)
        .AnswersJson(200, "The batch was understood; one answer an item.", typeof(TestResultAnswers), Example)
        .Refuses(400, 409, 413, 415);

    private static async Task<IResult> Post(HttpContext context, Store store)
    {
        var (batch, refusal) = await BatchBody.Read(context);
        using var _ = batch;
        if (batch is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var intake = new TestResultIntake(batch, request, store.Views.Current(request.Herd, request.Now));
        return await Submitting.Submit(context, store, batch.Bytes, intake.Submission, intake.Answers);
    }
}
