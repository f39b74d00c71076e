using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>The last messages of a webhook, with what came of each attempt.</summary>
public sealed class DeliveryLog
{
    private readonly Writer _writer;
    private readonly Readers _readers;
    private readonly CommitSignal _signal;

    internal DeliveryLog(Writer writer, Readers readers, CommitSignal signal) => (_writer, _readers, _signal) = (writer, readers, signal);

    /// <summary>Begins a test message, which is sent whether or not the webhook is active.</summary>
    public async Task<Delivery> Test(Herd herd, long webhook, NewMessage message, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(message);
        var delivery = await _writer.Write(unit =>
        {
            OutboxWriter.Insert(unit, herd.Id, webhook, message, test: true, Ticks.Of(now), Ticks.Of(now));
            return Find(unit.Connection, herd.Id, webhook, message.Id)!;
        }).ConfigureAwait(false);
        _signal.Raise();
        return delivery;
    }

    /// <summary>Sends a message again: with its id and its body, and the schedule from the start.</summary>
    /// <returns>Null when the webhook has no such message.</returns>
    public async Task<Delivery?> Redeliver(Herd herd, long webhook, string id, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        var delivery = await _writer.Write(unit =>
        {
            unit.Connection.Sqlite.Execute(
                "UPDATE webhook_delivery SET state = 1, due = @now, tries = 0, first_try = NULL WHERE herd = @herd AND webhook = @webhook AND id = @id",
                new { herd = herd.Id, webhook, id, now = Ticks.Of(now) });
            return Find(unit.Connection, herd.Id, webhook, id);
        }).ConfigureAwait(false);
        _signal.Raise();
        return delivery;
    }

    /// <summary>One message, or null.</summary>
    public Delivery? Find(Herd herd, long webhook, string id)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => Find(connection, herd.Id, webhook, id));
    }

    /// <summary>The messages, the latest first, after <c>Next</c> of the page before; null = from the latest.</summary>
    public Page<Delivery> List(Herd herd, long webhook, DeliveryState? state, string? after, int limit)
    {
        ArgumentNullException.ThrowIfNull(herd);
        var before = after is null ? long.MaxValue : Cursor.Read(after);
        return _readers.Read(connection =>
        {
            // One more than asked for tells that there is a next page.
            var rows = connection.Sqlite.Query<DeliveryRow>(
                $"""
                {DeliveryRow.Select} AND delivery < @before AND (@state IS NULL OR state = @state) ORDER BY delivery DESC LIMIT @limit
                """,
                new { herd = herd.Id, webhook, before, state = (long?)state, limit = limit + 1 }).AsList();
            var next = rows.Count > limit ? Cursor.Write(rows[limit - 1].Delivery) : null;
            return new Page<Delivery>([.. rows.Take(limit).Select(row => WithAttempts(connection, herd.Id, webhook, row))], next);
        });
    }

    private static Delivery? Find(Connection connection, long herd, long webhook, string id) =>
        connection.Sqlite.QuerySingleOrDefault<DeliveryRow>(
            $"{DeliveryRow.Select} AND id = @id", new { herd, webhook, id }) is { } row
            ? WithAttempts(connection, herd, webhook, row)
            : null;

    private static Delivery WithAttempts(Connection connection, long herd, long webhook, DeliveryRow row) => row.ToDelivery(connection.Sqlite
        .Query<AttemptRow>(AttemptRow.Select, new { herd, webhook, delivery = row.Delivery })
        .Select(attempt => attempt.ToAttempt())
        .ToArray());

    private sealed class DeliveryRow
    {
        public const string Select =
            "SELECT delivery, id, type, body, created, state, due FROM webhook_delivery WHERE herd = @herd AND webhook = @webhook";

        public long Delivery { get; init; }

        public string Id { get; init; } = "";

        public string Type { get; init; } = "";

        public string Body { get; init; } = "";

        public long Created { get; init; }

        public long State { get; init; }

        public long Due { get; init; }

        public Delivery ToDelivery(IReadOnlyList<DeliveryAttempt> attempts)
        {
            var state = (DeliveryState)State;
            return new Delivery(Id, Type, Body, Ticks.From(Created), state, state == DeliveryState.Waiting ? Ticks.From(Due) : null, attempts);
        }
    }

    private sealed class AttemptRow
    {
        public const string Select =
            """
            SELECT attempt, at, milliseconds, status, error FROM webhook_attempt
            WHERE herd = @herd AND webhook = @webhook AND delivery = @delivery ORDER BY attempt
            """;

        public long Attempt { get; init; }

        public long At { get; init; }

        public long Milliseconds { get; init; }

        public long? Status { get; init; }

        public string? Error { get; init; }

        public DeliveryAttempt ToAttempt() => new((int)Attempt, Ticks.From(At), Duration.FromMilliseconds(Milliseconds), (int?)Status, Error);
    }
}
