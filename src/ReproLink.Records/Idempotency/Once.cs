namespace ReproLink.Records;

/// <summary>What a caller sent to make a request repeatable.</summary>
/// <param name="KeyName">The name of the caller's key: two callers may choose the same text.</param>
/// <param name="IdempotencyKey">The text of the <c>Idempotency-Key</c> header.</param>
/// <param name="RequestHash">A hash of method, path and body.</param>
public sealed record IdempotencyRecord(string KeyName, string IdempotencyKey, byte[] RequestHash);

/// <summary>An answer as it left, kept to be given again.</summary>
public sealed record StoredAnswer(int Status, string ContentType, byte[] Body);

/// <summary>What became of a request that carried an idempotency key.</summary>
public enum OnceStatus
{
    /// <summary>Done now; its answer is stored with it.</summary>
    Done = 1,

    /// <summary>Done before: nothing was done, the stored answer is given again.</summary>
    Replayed = 2,

    /// <summary>The key was used before with another request: nothing was done.</summary>
    Conflict = 3,
}

/// <summary>The outcome of a request that carried an idempotency key.</summary>
/// <param name="Status">Done, replayed or conflict.</param>
/// <param name="Value">What was done; default unless <see cref="OnceStatus.Done"/>.</param>
/// <param name="Answer">The answer to give; null for a conflict.</param>
public sealed record Once<T>(OnceStatus Status, T? Value, StoredAnswer? Answer);

/// <summary>An idempotency key was used before with another request.</summary>
public sealed class IdempotencyConflictException() : Exception("The idempotency key was used before with another request.");
