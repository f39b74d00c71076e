using System.Security.Cryptography;
using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>Answers kept for a week, each written in the transaction of what it answers.</summary>
internal static class IdempotencyTable
{
    private static readonly Duration Kept = Duration.FromDays(7);

    public static Once<T> Once<T>(
        WriteUnit unit, long herd, IdempotencyRecord request, Instant now, Func<T> work, Func<T, StoredAnswer> render)
    {
        ArgumentNullException.ThrowIfNull(request);
        var at = unit.Record(now);
        Expire(unit, at);
        if (Find(unit, herd, request) is { } earlier)
        {
            return CryptographicOperations.FixedTimeEquals(earlier.RequestHash, request.RequestHash)
                ? new Once<T>(OnceStatus.Replayed, default, new StoredAnswer((int)earlier.Status, earlier.ContentType, earlier.Answer))
                : new Once<T>(OnceStatus.Conflict, default, null);
        }

        var value = work();
        var answer = render(value);
        Keep(unit, herd, request, answer, at);
        return new Once<T>(OnceStatus.Done, value, answer);
    }

    private static void Expire(WriteUnit unit, Instant at) => unit.Connection
        .Prepared("DELETE FROM idempotency WHERE created < ?1").Bind(1, Ticks.Of(at - Kept)).Run();

    private static IdempotencyRow? Find(WriteUnit unit, long herd, IdempotencyRecord request) =>
        unit.Connection.Sqlite.QuerySingleOrDefault<IdempotencyRow>(
            $"{IdempotencyRow.Select} WHERE herd = @herd AND key_name = @KeyName AND idempotency_key = @IdempotencyKey",
            new { herd, request.KeyName, request.IdempotencyKey });

    private static void Keep(WriteUnit unit, long herd, IdempotencyRecord request, StoredAnswer answer, Instant at) =>
        unit.Connection.Sqlite.Execute(
            """
            INSERT INTO idempotency (herd, key_name, idempotency_key, request_hash, status, content_type, answer, created)
            VALUES (@herd, @KeyName, @IdempotencyKey, @RequestHash, @Status, @ContentType, @Body, @created)
            """,
            new
            {
                herd,
                request.KeyName,
                request.IdempotencyKey,
                request.RequestHash,
                answer.Status,
                answer.ContentType,
                answer.Body,
                created = Ticks.Of(at),
            });
}

/// <summary>A row of <c>idempotency</c>.</summary>
internal sealed class IdempotencyRow
{
    public const string Select = "SELECT request_hash, status, content_type, answer FROM idempotency";

    public byte[] RequestHash { get; init; } = [];

    public long Status { get; init; }

    public string ContentType { get; init; } = "";

    public byte[] Answer { get; init; } = [];
}
