using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Facts;

/// <summary>Takes a fact out of the count.</summary>
internal static class WithdrawEndpoint
{
    public static async Task<IResult> Post(HttpContext context, Store store, string factId)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var reader = new ObjectReader(body.Root, new FieldProblems());
        var reason = reader.Text("reason", TextRule.Words, required: true);
        reader.Done();
        var (idempotency, wrongKey) = IdempotencyHeader.Of(context, body.Bytes);
        if (reader.Problems.Any || wrongKey is not null)
        {
            return wrongKey ?? Problem.OfBody(reader.Problems.List);
        }

        if (!FactId.TryParse(factId, out var id))
        {
            return NoSuchFact(factId);
        }

        var (herd, by, now) = (context.Herd().Herd, context.Caller().Name, context.Herd().Now);
        if (idempotency is null)
        {
            return IdempotencyHeader.Answer(OnceStatus.Done, Outcome(factId, await store.Facts.Withdraw(herd, id, reason!, by, now)));
        }

        var once = await store.Facts.Withdraw(herd, id, reason!, by, now, idempotency, status => Outcome(factId, status));
        return IdempotencyHeader.Answer(once.Status, once.Answer);
    }

    private static StoredAnswer Outcome(string factId, WithdrawStatus status) => status switch
    {
        WithdrawStatus.Withdrawn => IdempotencyHeader.Keep(200, new WithdrawAnswer { FactId = factId, Status = "withdrawn" }),
        WithdrawStatus.AlreadyWithdrawn => Problem.Of(ProblemTypes.AlreadyWithdrawn, $"The fact {factId} was withdrawn before.").Keep(),
        _ => NoSuchFact(factId).Keep(),
    };

    private static Problem NoSuchFact(string factId) => Problem.Of(ProblemTypes.FactNotFound, $"The herd has no fact '{factId}'.");
}
