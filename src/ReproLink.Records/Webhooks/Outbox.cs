using System.Collections.Concurrent;
using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>A message to begin.</summary>
public sealed record NewMessage(string Id, string Type, string Body);

/// <summary>
/// What is to be sent. There are no rows written beside the changes: the changes after the place up to which a webhook was
/// told are what waits, so a change that was undone is never told, and one on disk is never forgotten. Whoever sends
/// takes a webhook for a while, so that of several processes one sends, and one message at a time.
/// </summary>
public sealed class Outbox
{
    private const int Few = 20;
    private readonly Writer _writer;
    private readonly Readers _readers;
    private readonly CommitSignal _signal;
    // Up to where there is nothing of its kinds: a webhook that waits for a rare kind does not look through the rest again.
    private readonly ConcurrentDictionary<(long Herd, long Webhook, long Kinds), long> _looked = new();

    internal Outbox(Writer writer, Readers readers, CommitSignal signal) => (_writer, _readers, _signal) = (writer, readers, signal);

    /// <summary>The webhooks that have something to send now, and no process sending it.</summary>
    public IReadOnlyList<SendingCandidate> Candidates(Instant now) => _readers.Read(connection =>
    {
        var rows = connection.Sqlite.Query<CandidateRow>(CandidateRow.Select, new { now = Ticks.Of(now) }).AsList();
        return rows.Count == 0 ? [] : rows.Select(row => Candidate(connection, row, now)).OfType<SendingCandidate>().ToArray();
    });

    /// <summary>Takes a webhook and the message to send, which a crash leaves waiting until <paramref name="lease"/> is over.</summary>
    /// <returns>Null when another process was faster or there is nothing to send any more.</returns>
    public Task<SendingClaim?> Claim(SendingCandidate candidate, NewMessage? message, Instant now, Duration lease)
    {
        ArgumentNullException.ThrowIfNull(candidate);
        return _writer.Write(unit => OutboxWriter.Claim(unit, candidate, message, now, now + lease));
    }

    /// <summary>Keeps what came of an attempt and lets the webhook go.</summary>
    public async Task Finish(SendingClaim claim, AttemptOutcome outcome)
    {
        ArgumentNullException.ThrowIfNull(claim);
        ArgumentNullException.ThrowIfNull(outcome);
        await _writer.Write(unit => OutboxWriter.Finish(unit, claim, outcome)).ConfigureAwait(false);
        // More may wait for it.
        _signal.Raise();
    }

    /// <summary>Lets a webhook go whose message was not sent: it is due as before.</summary>
    public Task Release(SendingClaim claim, Instant now)
    {
        ArgumentNullException.ThrowIfNull(claim);
        return _writer.Write(unit => OutboxWriter.Release(unit, claim, now));
    }

    private SendingCandidate? Candidate(Connection connection, CandidateRow row, Instant now)
    {
        var untold = row.State == (long)WebhookState.Active && (row.HeldUntil is null || row.HeldUntil <= Ticks.Of(now)) ? Untold(connection, row) : null;
        // Whichever waits longest goes first, so that neither starves the other.
        var begunFirst = row.Due is { } due && (untold is null || due <= Math.Max(row.HeldUntil ?? long.MinValue, Ticks.Of(untold.Recorded.First)));
        return begunFirst || untold is not null
            ? new SendingCandidate(new LocationKey(row.Scheme, row.Location), row.Herd, row.Webhook, row.Told, begunFirst ? null : untold)
            : null;
    }

    private UntoldChanges? Untold(Connection connection, CandidateRow row)
    {
        var key = (row.Herd, row.Webhook, row.Kinds);
        var after = Math.Max(row.Told, _looked.GetValueOrDefault(key));
        if (after >= row.Position)
        {
            return null;
        }

        var at = new { herd = row.Herd, after, kinds = row.Kinds, few = Few };
        var sums = connection.Sqlite.Query<SumRow>(SumRow.Select, at).AsList();
        if (sums.Count == 0)
        {
            _looked[key] = row.Position;
            return null;
        }

        var few = sums.Sum(s => s.Count) > Few ? null : connection.Sqlite.Query<ChangeRow>(ChangeRow.SelectKinds, at).Select(c => c.ToChange()).ToArray();
        return new UntoldChanges(
            Cursor.Write(sums.Min(s => s.First) - 1),
            sums.Max(s => s.Last),
            (Ticks.From(sums.Min(s => s.FirstRecorded)), Ticks.From(sums.Max(s => s.LastRecorded))),
            [.. sums.Select(s => ((ChangeKind)s.Kind, s.Count))],
            few);
    }

    private sealed class CandidateRow
    {
        public const string Select =
            """
            SELECT h.scheme, h.location, w.herd, w.webhook, w.state, w.told, w.kinds, w.held_until, (SELECT sequence FROM position) AS position,
              (SELECT min(d.due) FROM webhook_delivery d
               WHERE d.herd = w.herd AND d.webhook = w.webhook AND d.state = 1 AND d.due <= @now AND (w.state = 1 OR d.test = 1)) AS due
            FROM webhook w JOIN herd h ON h.herd = w.herd
            WHERE w.state <> 4 AND (w.busy_until IS NULL OR w.busy_until <= @now)
            """;

        public string Scheme { get; init; } = "";

        public string Location { get; init; } = "";

        public long Herd { get; init; }

        public long Webhook { get; init; }

        public long State { get; init; }

        public long Told { get; init; }

        public long Kinds { get; init; }

        public long? HeldUntil { get; init; }

        public long Position { get; init; }

        public long? Due { get; init; }
    }

    private sealed class SumRow
    {
        public const string Select =
            """
            SELECT kind, count(*) AS count, min(sequence) AS first, max(sequence) AS last, min(recorded) AS first_recorded, max(recorded) AS last_recorded
            FROM change WHERE herd = @herd AND sequence > @after AND (@kinds >> kind) & 1 GROUP BY kind ORDER BY kind
            """;

        public long Kind { get; init; }

        public long Count { get; init; }

        public long First { get; init; }

        public long Last { get; init; }

        public long FirstRecorded { get; init; }

        public long LastRecorded { get; init; }
    }
}
