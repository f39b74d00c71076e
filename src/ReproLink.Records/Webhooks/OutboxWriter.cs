using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>Takes messages to send and keeps what came of them.</summary>
internal static class OutboxWriter
{
    private const int MostDeliveries = 500;
    private const int MostAttempts = 50;

    // An old secret that no longer holds goes by the way.
    private const string Take =
        """
        UPDATE webhook SET busy_until = @until,
          old_secret = CASE WHEN old_secret_until > @now THEN old_secret END, old_secret_until = CASE WHEN old_secret_until > @now THEN old_secret_until END
        WHERE herd = @herd AND webhook = @webhook AND state <> 4 AND (busy_until IS NULL OR busy_until <= @now)
        """;

    public static SendingClaim? Claim(WriteUnit unit, SendingCandidate candidate, NewMessage? message, Instant now, Instant until)
    {
        var sqlite = unit.Connection.Sqlite;
        var at = new { herd = candidate.Herd, webhook = candidate.Webhook, now = Ticks.Of(now), until = Ticks.Of(until) };
        if (sqlite.Execute(Take, at) == 0)
        {
            return null;
        }

        var lease = sqlite.QuerySingle<LeaseRow>(LeaseRow.Select, at);

        // A test says nothing of the herd: it may be sent whatever became of the key.
        var mustStop = lease.KeyRevoked != 0 && lease.State == (long)WebhookState.Active;
        var taken = mustStop ? Stop(unit, candidate, at.now, lease) : message is null ? Begun(unit, at, lease) : Begin(unit, lease, candidate, message, at.now, at.until);
        if (taken is null)
        {
            sqlite.Execute("UPDATE webhook SET busy_until = NULL WHERE herd = @herd AND webhook = @webhook", at);
            return null;
        }

        byte[][] secrets = lease.OldSecret is { } old ? [lease.Secret, old] : [lease.Secret];
        return new SendingClaim(candidate, taken.Delivery, taken.Id, taken.Body, lease.Url, secrets, (int)taken.Tries + 1, taken.Test != 0, until);
    }

    public static bool Finish(WriteUnit unit, SendingClaim claim, AttemptOutcome outcome)
    {
        var sqlite = unit.Connection.Sqlite;
        var at = new
        {
            herd = claim.Candidate.Herd,
            webhook = claim.Candidate.Webhook,
            delivery = claim.Number,
            until = Ticks.Of(claim.Until),
            at = Ticks.Of(outcome.At),
            took = (long)outcome.Took.TotalMilliseconds,
            status = outcome.Status,
            error = outcome.Error,
            state = (long)(outcome.Error is null ? DeliveryState.Delivered : outcome.Next is null ? DeliveryState.Failed : DeliveryState.Waiting),
            due = Ticks.Of(outcome.Next ?? outcome.At),
            held = Ticks.Of(outcome.HeldUntil),
            reason = outcome.StopReason,
        };
        sqlite.Execute("UPDATE webhook SET busy_until = NULL WHERE herd = @herd AND webhook = @webhook AND busy_until = @until", at);
        // Deleted while it was sent: there is nothing left to keep.
        if (sqlite.QuerySingleOrDefault<long?>(
            """
            UPDATE webhook_delivery SET state = @state, due = @due, tries = tries + 1, first_try = COALESCE(first_try, @at)
            WHERE herd = @herd AND webhook = @webhook AND delivery = @delivery RETURNING first_try
            """,
            at) is not { } firstTry)
        {
            return false;
        }

        KeepAttempt(unit, at);
        if (outcome.Error is null)
        {
            sqlite.Execute("UPDATE webhook SET failing_since = NULL, held_until = NULL WHERE herd = @herd AND webhook = @webhook", at);
            return true;
        }

        if (!claim.IsTest)
        {
            sqlite.Execute("UPDATE webhook SET failing_since = COALESCE(failing_since, @at), held_until = @held WHERE herd = @herd AND webhook = @webhook", at);
        }

        // Given up, and nothing else got through since its first attempt.
        var (gone, deaf) = (outcome.Gone, !claim.IsTest && outcome.Next is null);
        if (gone || deaf)
        {
            sqlite.Execute(
                """
                UPDATE webhook SET state = 3, stop_reason = @reason, stopped = @at
                WHERE herd = @herd AND webhook = @webhook AND state IN (1, 2) AND (@gone OR failing_since <= @firstTry)
                """,
                new { at.herd, at.webhook, at.reason, at.at, gone, firstTry });
        }

        return true;
    }

    public static bool Release(WriteUnit unit, SendingClaim claim, Instant now)
    {
        var at = new { herd = claim.Candidate.Herd, webhook = claim.Candidate.Webhook, delivery = claim.Number, until = Ticks.Of(claim.Until), now = Ticks.Of(now) };
        unit.Connection.Sqlite.Execute("UPDATE webhook_delivery SET due = @now WHERE herd = @herd AND webhook = @webhook AND delivery = @delivery AND state = 1", at);
        return unit.Connection.Sqlite.Execute("UPDATE webhook SET busy_until = NULL WHERE herd = @herd AND webhook = @webhook AND busy_until = @until", at) > 0;
    }

    private static void KeepAttempt(WriteUnit unit, object at) => unit.Connection.Sqlite.Execute(
        $"""
        INSERT INTO webhook_attempt (herd, webhook, delivery, attempt, at, milliseconds, status, error)
        SELECT @herd, @webhook, @delivery, COALESCE(MAX(attempt), 0) + 1, @at, @took, @status, @error
        FROM webhook_attempt WHERE herd = @herd AND webhook = @webhook AND delivery = @delivery;
        DELETE FROM webhook_attempt WHERE herd = @herd AND webhook = @webhook AND delivery = @delivery AND attempt <=
          (SELECT MAX(attempt) - {MostAttempts} FROM webhook_attempt WHERE herd = @herd AND webhook = @webhook AND delivery = @delivery);
        """,
        at);

    private static MessageRow? Begun(WriteUnit unit, object at, LeaseRow lease) => unit.Connection.Sqlite.QuerySingleOrDefault<MessageRow>(
        $"""
        UPDATE webhook_delivery SET due = @until
        WHERE herd = @herd AND webhook = @webhook AND delivery =
          (SELECT delivery FROM webhook_delivery
           WHERE herd = @herd AND webhook = @webhook AND state = 1 AND due <= @now AND (test = 1 OR {(lease.State == (long)WebhookState.Active ? 1 : 0)})
           ORDER BY due, delivery LIMIT 1)
        RETURNING {MessageRow.Columns}
        """,
        at);

    private static MessageRow? Begin(WriteUnit unit, LeaseRow lease, SendingCandidate candidate, NewMessage message, long now, long until)
    {
        if (lease.State != (long)WebhookState.Active || lease.Told != candidate.Told || candidate.Untold is not { } untold)
        {
            return null;
        }

        var sqlite = unit.Connection.Sqlite;
        var row = Insert(unit, candidate.Herd, candidate.Webhook, message, test: false, now, until);
        sqlite.Execute(
            "UPDATE webhook SET told = @last WHERE herd = @herd AND webhook = @webhook",
            new { herd = candidate.Herd, webhook = candidate.Webhook, last = untold.Last });
        return row;
    }

    /// <summary>Inserts a message that is not tried before <paramref name="due"/>.</summary>
    public static MessageRow Insert(WriteUnit unit, long herd, long webhook, NewMessage message, bool test, long now, long due)
    {
        var row = unit.Connection.Sqlite.QuerySingle<MessageRow>(
            $"""
            INSERT INTO webhook_delivery (herd, webhook, delivery, id, type, test, body, created, state, due, tries)
            VALUES (@herd, @webhook, (SELECT COALESCE(MAX(delivery), 0) + 1 FROM webhook_delivery WHERE herd = @herd AND webhook = @webhook),
              @id, @type, @test, @body, @now, 1, @due, 0)
            RETURNING {MessageRow.Columns}
            """,
            new { herd, webhook, id = message.Id, type = message.Type, body = message.Body, test, now, due });
        // The log is bounded; what still waits stays.
        unit.Connection.Sqlite.Execute(
            "DELETE FROM webhook_delivery WHERE herd = @herd AND webhook = @webhook AND delivery <= @old AND state <> 1",
            new { herd, webhook, old = row.Delivery - MostDeliveries });
        return row;
    }

    private static MessageRow? Stop(WriteUnit unit, SendingCandidate candidate, long now, LeaseRow lease)
    {
        unit.Connection.Sqlite.Execute(
            "UPDATE webhook SET state = 3, stop_reason = @reason, stopped = @now WHERE herd = @herd AND webhook = @webhook",
            new { herd = candidate.Herd, webhook = candidate.Webhook, now, reason = $"The key '{lease.CreatedBy}' for which it acted was revoked." });
        return null;
    }
}
