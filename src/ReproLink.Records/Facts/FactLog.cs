using System.Text.Json;
using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>The facts of herds: appended, withdrawn, never changed.</summary>
public sealed class FactLog
{
    private readonly Writer _writer;
    private readonly Readers _readers;

    internal FactLog(Writer writer, Readers readers) => (_writer, _readers) = (writer, readers);

    /// <summary>Appends all drafts or none. The answers leave once they are on disk.</summary>
    /// <exception cref="IdempotencyConflictException">The idempotency key was used before with another request.</exception>
    public async Task<IReadOnlyList<AppendAnswer>> Append(
        Herd herd, IReadOnlyList<FactDraft> drafts, Instant now, IdempotencyRecord? idempotency = null, CancellationToken ct = default)
    {
        var submission = new Submission(drafts, []);
        if (idempotency is null)
        {
            return (await Submit(herd, submission, now, ct).ConfigureAwait(false)).Facts;
        }

        var once = await Submit(herd, submission, now, idempotency, Render, ct).ConfigureAwait(false);
        return once.Status switch
        {
            OnceStatus.Done => once.Value!.Facts,
            OnceStatus.Replayed => JsonSerializer.Deserialize(once.Answer!.Body, RecordsJson.Compact.ListAppendAnswer) ?? [],
            _ => throw new IdempotencyConflictException(),
        };

        static StoredAnswer Render(SubmissionAnswer answer) => new(
            200, "application/json", JsonSerializer.SerializeToUtf8Bytes([.. answer.Facts], RecordsJson.Compact.ListAppendAnswer));
    }

    /// <summary>Appends facts and holds results, all or none.</summary>
    public Task<SubmissionAnswer> Submit(Herd herd, Submission submission, Instant now, CancellationToken ct = default)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(submission);
        return _writer.Write(unit => Take(unit, herd, submission, now), ct);
    }

    /// <summary>
    /// The same, at most once for an idempotency key: <paramref name="render"/> makes the answer inside the transaction, where
    /// it is stored beside what it answers. It holds up every other write: keep it short.
    /// </summary>
    public Task<Once<SubmissionAnswer>> Submit(
        Herd herd,
        Submission submission,
        Instant now,
        IdempotencyRecord idempotency,
        Func<SubmissionAnswer, StoredAnswer> render,
        CancellationToken ct = default)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(submission);
        return _writer.Write(
            unit => IdempotencyTable.Once(unit, herd.Id, idempotency, now, () => Take(unit, herd, submission, now), render), ct);
    }

    /// <summary>
    /// What a submission would do: it is done, <paramref name="render"/> looks at it inside the transaction, and all of it is
    /// undone. Nothing is stored.
    /// </summary>
    public Task<T> Preview<T>(Herd herd, Submission submission, Instant now, Func<SubmissionAnswer, T> render, CancellationToken ct = default)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(submission);
        ArgumentNullException.ThrowIfNull(render);
        return _writer.Try(unit => render(Take(unit, herd, submission, now)), ct);
    }

    /// <summary>Withdraws a fact: from now on it does not count.</summary>
    public Task<WithdrawStatus> Withdraw(Herd herd, FactId id, string reason, string by, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit => FactAppender.Withdraw(unit, herd.Id, id, unit.Record(now), reason, by));
    }

    /// <summary>The same, at most once for an idempotency key.</summary>
    public Task<Once<WithdrawStatus>> Withdraw(
        Herd herd, FactId id, string reason, string by, Instant now, IdempotencyRecord idempotency, Func<WithdrawStatus, StoredAnswer> render)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit => IdempotencyTable.Once(
            unit, herd.Id, idempotency, now, () => FactAppender.Withdraw(unit, herd.Id, id, unit.Record(now), reason, by), render));
    }

    /// <summary>A fact by id, withdrawn or not; null when this herd has none of that id.</summary>
    public StoredFact? Find(Herd herd, FactId id)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => FactList.Find(connection, herd.Id, id));
    }

    /// <summary>Facts in the order in which they were recorded.</summary>
    /// <exception cref="ArgumentException"><paramref name="after"/> is no cursor (<see cref="Cursor.IsValid"/>).</exception>
    public Page<StoredFact> List(Herd herd, string? animal, string? after, int limit, bool includeWithdrawn = false)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentOutOfRangeException.ThrowIfLessThan(limit, 1);
        var from = Cursor.Read(after);
        return _readers.Read(connection => FactList.List(connection, herd.Id, animal, from, limit, includeWithdrawn));
    }

    private static SubmissionAnswer Take(WriteUnit unit, Herd herd, Submission submission, Instant now) =>
        new Intake(unit, herd.Id, unit.Record(now)).Take(submission);
}
