using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.Idempotency;

/// <summary>Stores a batch and answers it; with an idempotency key the answer is stored beside it, in the same transaction.</summary>
internal static class Submitting
{
    public static async Task<IResult> Submit<T>(
        HttpContext context, Store store, byte[] body, Submission submission, Func<SubmissionAnswer, AnimalTraces, T> answer)
    {
        var request = context.Herd();
        var (idempotency, refusal) = IdempotencyHeader.Of(context, body);
        if (refusal is not null)
        {
            return refusal;
        }

        if (idempotency is null)
        {
            var stored = await store.Facts.Submit(request.Herd, submission, request.Now, context.RequestAborted);
            var animals = submission.Facts.Select(f => f.Animal).ToHashSet(StringComparer.Ordinal);
            var part = store.Views.Some(request.Herd, animals, Instant.Max(request.Now, stored.Recorded));
            return Results.Ok(answer(stored, new AnimalTraces(part.Find, part.Rules, part.AsOf, part.KnownAt)));
        }

        var rules = store.Views.Some(request.Herd, [], request.Now).Rules;
        var once = await store.Facts.Submit(request.Herd, submission, request.Now, idempotency, Render, context.RequestAborted);
        return IdempotencyHeader.Answer(once.Status, once.Answer);

        StoredAnswer Render(SubmissionAnswer stored)
        {
            var knownAt = Instant.Max(request.Now, stored.Recorded);
            var traces = new AnimalTraces(stored.History, rules, Day.From(knownAt.InZone(request.Zone).Date), knownAt);
            return IdempotencyHeader.Keep(200, answer(stored, traces));
        }
    }
}
