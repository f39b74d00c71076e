using ReproLink.Api.Access;
using ReproLink.Records;

namespace ReproLink.Api.ReceivedResults;

/// <summary>What results would do.</summary>
internal static class PreviewEndpoint
{
    public static async Task<IResult> Post(HttpContext context, Store store)
    {
        var (body, refusal) = await ReceivedBody.Read(context, store);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var desk = new ResultDesk(store, context.Herd());
        var intake = desk.Intake(body);
        return Results.Ok(Answer(body, (await desk.Preview(intake, intake.Answers, context.RequestAborted)).Results));
    }

    private static PreviewAnswer Answer(ReceivedBody body, IReadOnlyList<TestResultAnswer> results) => new()
    {
        Counts = new PreviewCounts
        {
            Received = results.Count,
            Accepted = results.Count(r => r.Status is "accepted" or "replaced"),
            Duplicate = results.Count(r => r.Status == "duplicate"),
            Held = results.Count(r => r.Status == "held"),
            Rejected = results.Count(r => r.Status == "rejected"),
        },
        Lines = [.. body.Batch.Items.Select((item, i) => new PreviewLine
        {
            Text = item.Raw ?? item.Element.GetRawText(),
            Read = item.Element.Clone(),
            Result = results[i] with { FactId = results[i].Status == "duplicate" ? results[i].FactId : null, HeldId = null },
        })],
    };
}
