using ReproLink.Api.Problems;
using ReproLink.Records;

namespace ReproLink.Api.Idempotency;

/// <summary>What a write came to, for whoever asked: an endpoint gives it as it is, a page reads it.</summary>
/// <param name="Result">The answer of an endpoint.</param>
/// <param name="Stored">The answer as written; what was refused before the store was asked is written the same way.</param>
internal sealed record DeskAnswer(IResult Result, StoredAnswer Stored)
{
    /// <summary>Whether it was done, now or before under the same key.</summary>
    public bool IsDone => Stored.Status < StatusCodes.Status400BadRequest;

    public static implicit operator DeskAnswer(Problem refusal) => new(refusal, refusal.Keep());

    public static implicit operator DeskAnswer(Once<RoundAnswer> once) => Of(once.Status, once.Answer);

    public static implicit operator DeskAnswer(Once<HeldDecision> once) => Of(once.Status, once.Answer);

    public static DeskAnswer Of(OnceStatus status, StoredAnswer? answer) => status == OnceStatus.Conflict
        ? IdempotencyHeader.Reused
        : new DeskAnswer(IdempotencyHeader.Answer(status, answer), answer!);
}
