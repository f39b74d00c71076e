using NodaTime;

namespace ReproLink.Records;

/// <summary>How a write is answered, and the key that makes it repeatable.</summary>
/// <param name="Render">Makes the answer inside the transaction: keep it short.</param>
/// <param name="Idempotency">What the caller sent; null = nothing.</param>
public sealed record Reply<T>(Func<T, StoredAnswer> Render, IdempotencyRecord? Idempotency)
{
    /// <summary>Does the work, at most once for a key.</summary>
    internal Once<T> Run(WriteUnit unit, long herd, Instant now, Func<T> work)
    {
        if (Idempotency is not null)
        {
            return IdempotencyTable.Once(unit, herd, Idempotency, now, work, Render);
        }

        var value = work();
        return new Once<T>(OnceStatus.Done, value, Render(value));
    }
}
