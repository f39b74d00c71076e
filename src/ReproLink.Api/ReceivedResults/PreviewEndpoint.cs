using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
using ReproLink.Calendar.Dates;
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

        var request = context.Herd();
        var intake = TestResultEndpoints.Intake(body, context, store);
        var rules = store.Views.Current(request.Herd, request.Now).Rules;
        // Done and undone: what is answered is what the same request would be answered now.
        var answers = await store.Facts.Preview(request.Herd, intake.Submission, request.Now, stored =>
        {
            var knownAt = Instant.Max(request.Now, stored.Recorded);
            return intake.Answers(stored, new AnimalTraces(stored.History, rules, Day.From(knownAt.InZone(request.Zone).Date), knownAt));
        }, context.RequestAborted);
        return Results.Ok(Answer(body, answers.Results));
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
