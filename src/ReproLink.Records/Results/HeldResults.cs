using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>The inbox: results that wait for a person, or for their animal to appear.</summary>
public sealed class HeldResults
{
    private readonly Writer _writer;
    private readonly Readers _readers;

    internal HeldResults(Writer writer, Readers readers) => (_writer, _readers) = (writer, readers);

    /// <summary>Holds a result. The same again is answered with the id on record, even after it was settled.</summary>
    public Task<string> Hold(Herd herd, HeldDraft draft, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit => new Intake(unit, herd.Id, unit.Record(now)).Hold(draft));
    }

    /// <summary>What waits, oldest first.</summary>
    public IReadOnlyList<HeldResult> Open(Herd herd)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => HeldRows.Open(connection, herd.Id, knownAt: null).Select(row => Of(row, null)).ToArray());
    }

    /// <summary>How many wait.</summary>
    public int Waiting(Herd herd)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => connection.Sqlite.ExecuteScalar<int>("SELECT count(*) FROM held_open WHERE herd = @herd", new { herd = herd.Id }));
    }

    /// <summary>One held result, open or settled; null when this herd has none of that id.</summary>
    public HeldResult? Find(Herd herd, string heldId)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(heldId);
        if (HeldWriter.Parse(heldId) is not { } held)
        {
            return null;
        }

        return _readers.Read(connection => HeldRows.Find(connection, herd.Id, held) is { } row
            ? Of(row, HeldRows.FindEnd(connection, herd.Id, held)?.ToEnd())
            : null);
    }

    /// <summary>Held results, the latest first: those that wait, those that are settled, or all.</summary>
    /// <param name="herd">The herd.</param>
    /// <param name="open">True = those that wait; false = settled ones; null = all.</param>
    /// <param name="after">A cursor.</param>
    /// <param name="limit">Most of a page.</param>
    public Page<HeldResult> List(Herd herd, bool? open, string? after, int limit)
    {
        ArgumentNullException.ThrowIfNull(herd);
        var before = after is null ? long.MaxValue : Cursor.Read(after);
        var held = _readers.Read(connection => HeldRows.List(connection, herd.Id, open, before, limit + 1)
            .Select(row => Of(row, HeldRows.FindEnd(connection, herd.Id, row.Held)?.ToEnd()))
            .ToList());
        var more = held.Count > limit;
        return new Page<HeldResult>(more ? held[..limit] : held, more ? Cursor.Write(held[limit - 1].Sequence) : null);
    }

    /// <summary>How many wait, over all herds.</summary>
    internal long CountOpen() => _readers.Read(connection => connection.Sqlite.ExecuteScalar<long>("SELECT count(*) FROM held_open"));

    /// <summary>A person ties it: the draft is appended under the source and sourceId it carries.</summary>
    public Task<HeldDecision> Assign(Herd herd, string heldId, FactDraft draft, string by, Instant now)
    {
        ArgumentNullException.ThrowIfNull(draft);
        return Decide(herd, (unit, held) => HeldDecider.Settle(unit, herd.Id, held, now, HeldEnding.Assigned, by, "", draft), heldId);
    }

    /// <summary>The same, answered inside the transaction; at most once for an idempotency key.</summary>
    public Task<Once<HeldDecision>> Assign(Herd herd, string heldId, FactDraft draft, string by, Instant now, Reply<HeldDecision> reply)
    {
        ArgumentNullException.ThrowIfNull(draft);
        return Decide(herd, (unit, held) => HeldDecider.Settle(unit, herd.Id, held, now, HeldEnding.Assigned, by, "", draft), heldId, now, reply);
    }

    /// <summary>A person sets it aside, and says why. It stays on record.</summary>
    public Task<HeldDecision> Dismiss(Herd herd, string heldId, string reason, string by, Instant now) =>
        Decide(herd, (unit, held) => HeldDecider.Settle(unit, herd.Id, held, now, HeldEnding.Dismissed, by, reason, draft: null), heldId);

    /// <inheritdoc cref="Dismiss(Herd, string, string, string, Instant)"/>
    public Task<Once<HeldDecision>> Dismiss(Herd herd, string heldId, string reason, string by, Instant now, Reply<HeldDecision> reply) =>
        Decide(herd, (unit, held) => HeldDecider.Settle(unit, herd.Id, held, now, HeldEnding.Dismissed, by, reason, draft: null), heldId, now, reply);

    /// <summary>
    /// Undoes a person's decision: the fact it became is withdrawn, and it waits again under a new id. What ended otherwise is
    /// not undone: its sender, or the animal's appearance, settled it.
    /// </summary>
    public Task<Once<HeldDecision>> Reopen(Herd herd, string heldId, string reason, string by, Instant now, Reply<HeldDecision> reply) =>
        Decide(herd, (unit, held) => HeldDecider.Reopen(unit, herd.Id, held, reason, by, now), heldId, now, reply);

    private Task<HeldDecision> Decide(Herd herd, Func<WriteUnit, string, HeldDecision> decide, string heldId)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(heldId);
        return _writer.Write(unit => decide(unit, heldId));
    }

    private Task<Once<HeldDecision>> Decide(
        Herd herd, Func<WriteUnit, string, HeldDecision> decide, string heldId, Instant now, Reply<HeldDecision> reply)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(heldId);
        ArgumentNullException.ThrowIfNull(reply);
        return _writer.Write(unit => reply.Run(unit, herd.Id, now, () => decide(unit, heldId)));
    }

    private static HeldResult Of(HeldRow row, HeldEnd? end) =>
        new(HeldWriter.Text(row.Held), row.ToHeldDraft(), Ticks.From(row.Recorded), row.Sequence, end);
}
