using System.Security.Cryptography;
using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>
/// Who is told of a herd's changes. Secrets are kept as they are, for messages are signed with them; they are answered when
/// they are made and never read again but to sign.
/// </summary>
public sealed class WebhookBook
{
    /// <summary>Most webhooks of a herd.</summary>
    public const int Most = 20;

    private const int SecretBytes = 32;
    private readonly Writer _writer;
    private readonly Readers _readers;
    private readonly CommitSignal _signal;

    internal WebhookBook(Writer writer, Readers readers, CommitSignal signal) => (_writer, _readers, _signal) = (writer, readers, signal);

    /// <summary>Makes a webhook. It is told of what changes from now on.</summary>
    public Task<WebhookCreation> Create(Herd herd, WebhookDraft draft, WebhookOwner by, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(by);
        return _writer.Write(unit => Insert(unit, herd.Id, draft, by, now));
    }

    /// <summary>Every webhook of a herd, oldest first.</summary>
    public IReadOnlyList<Webhook> List(Herd herd)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => connection.Sqlite
            .Query<WebhookRow>($"{WebhookRow.Select} ORDER BY webhook", new { herd = herd.Id })
            .Select(row => row.ToWebhook())
            .ToArray());
    }

    /// <summary>One webhook, or null.</summary>
    public Webhook? Find(Herd herd, long webhook)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => Find(connection, herd.Id, webhook));
    }

    /// <summary>Changes a webhook; resumed, it acts for whoever resumed it, and what waited goes out at once.</summary>
    /// <returns>As it is then; null = there is none.</returns>
    public async Task<Webhook?> Change(Herd herd, long webhook, WebhookChange change, WebhookOwner by, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(change);
        ArgumentNullException.ThrowIfNull(by);
        var changed = await _writer.Write(unit => Update(unit, herd.Id, webhook, change, by, now)).ConfigureAwait(false);
        _signal.Raise();
        return changed;
    }

    /// <summary>Makes a new secret; the one before holds until <paramref name="oldUntil"/>.</summary>
    /// <returns>The secret, to be shown once; null = there is no such webhook.</returns>
    public Task<WebhookCreation?> Rotate(Herd herd, long webhook, Instant oldUntil)
    {
        ArgumentNullException.ThrowIfNull(herd);
        var secret = RandomNumberGenerator.GetBytes(SecretBytes);
        return _writer.Write(unit =>
        {
            var done = unit.Connection.Sqlite.Execute(
                "UPDATE webhook SET old_secret = secret, old_secret_until = @until, secret = @secret WHERE herd = @herd AND webhook = @webhook AND state <> 4",
                new { herd = herd.Id, webhook, secret, until = Ticks.Of(oldUntil) });
            return done == 0 ? null : new WebhookCreation(Find(unit.Connection, herd.Id, webhook), secret);
        });
    }

    /// <summary>Deletes a webhook with its messages and secrets.</summary>
    /// <returns>False when there is none.</returns>
    public Task<bool> Delete(Herd herd, long webhook)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit =>
        {
            var at = new { herd = herd.Id, webhook };
            unit.Connection.Sqlite.Execute("DELETE FROM webhook_delivery WHERE herd = @herd AND webhook = @webhook", at);
            return unit.Connection.Sqlite.Execute(
                """
                UPDATE webhook SET state = 4, url = '', name = NULL, secret = x'', old_secret = NULL, old_secret_until = NULL
                WHERE herd = @herd AND webhook = @webhook AND state <> 4
                """,
                at) > 0;
        });
    }

    internal static Webhook? Find(Connection connection, long herd, long webhook) => connection.Sqlite.QuerySingleOrDefault<WebhookRow>(
        $"{WebhookRow.Select} AND webhook = @webhook", new { herd, webhook })?.ToWebhook();

    private static WebhookCreation Insert(WriteUnit unit, long herd, WebhookDraft draft, WebhookOwner by, Instant now)
    {
        var sqlite = unit.Connection.Sqlite;
        var same = sqlite.QuerySingleOrDefault<WebhookRow>(
            $"{WebhookRow.Select} AND url = @url AND created_by = @by LIMIT 1",
            new { herd, url = draft.Url, by = by.Name });
        if (same is not null)
        {
            return new WebhookCreation(same.ToWebhook(), null);
        }

        if (sqlite.ExecuteScalar<int>("SELECT count(*) FROM webhook WHERE herd = @herd AND state <> 4", new { herd }) >= Most)
        {
            return new WebhookCreation(null, null);
        }

        var secret = RandomNumberGenerator.GetBytes(SecretBytes);
        var row = sqlite.QuerySingle<WebhookRow>(
            $"""
            INSERT INTO webhook (herd, webhook, url, name, kinds, state, secret, told, api_key, created, created_by)
            VALUES (@herd, (SELECT COALESCE(MAX(webhook), 0) + 1 FROM webhook WHERE herd = @herd), @url, @name, @kinds, 1, @secret, @told, @key, @at, @by)
            RETURNING {WebhookRow.Columns}
            """,
            new
            {
                herd,
                url = draft.Url,
                name = draft.Name,
                kinds = draft.Kinds.Bits,
                secret,
                told = unit.Sequence,
                key = by.Key,
                at = Ticks.Of(unit.Record(now)),
                by = by.Name,
            });
        return new WebhookCreation(row.ToWebhook(), secret);
    }

    private static Webhook? Update(WriteUnit unit, long herd, long webhook, WebhookChange change, WebhookOwner by, Instant now)
    {
        var sqlite = unit.Connection.Sqlite;
        var at = new { herd, webhook, url = change.Url, name = change.Name, kinds = change.Kinds?.Bits, key = by.Key, by = by.Name, now = Ticks.Of(now) };
        sqlite.Execute(
            """
            UPDATE webhook SET url = COALESCE(@url, url), name = COALESCE(@name, name), kinds = COALESCE(@kinds, kinds)
            WHERE herd = @herd AND webhook = @webhook AND state <> 4
            """,
            at);
        if (change.Active == false)
        {
            sqlite.Execute("UPDATE webhook SET state = 2 WHERE herd = @herd AND webhook = @webhook AND state = 1", at);
        }

        if (change.Active == true)
        {
            sqlite.Execute(
                """
                UPDATE webhook SET state = 1, stop_reason = NULL, stopped = NULL, api_key = @key, created_by = @by
                WHERE herd = @herd AND webhook = @webhook AND state IN (2, 3)
                """,
                at);
        }

        // Somebody looked after it: what waits is tried now and not when the schedule says.
        if (change.Active == true || change.Url is not null)
        {
            sqlite.Execute("UPDATE webhook SET failing_since = NULL, held_until = NULL WHERE herd = @herd AND webhook = @webhook", at);
            sqlite.Execute("UPDATE webhook_delivery SET due = @now WHERE herd = @herd AND webhook = @webhook AND state = 1 AND due > @now", at);
        }

        return Find(unit.Connection, herd, webhook);
    }
}
