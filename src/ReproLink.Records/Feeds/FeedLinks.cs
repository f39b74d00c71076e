using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>A secret link to a herd's calendar feed.</summary>
/// <param name="Id">Its number in the herd.</param>
/// <param name="Name">Who it is for.</param>
/// <param name="Style">One entry an <c>item</c>, or one a <c>day</c>.</param>
/// <param name="Created">When it was made.</param>
/// <param name="CreatedBy">By which key.</param>
/// <param name="Revoked">When it was revoked; null = it holds.</param>
public sealed record FeedLink(long Id, string Name, string Style, Instant Created, string CreatedBy, Instant? Revoked);

/// <summary>Links to calendar feeds: one secret a subscriber, each revocable alone. Only hashes are stored.</summary>
public sealed class FeedLinks
{
    private readonly Writer _writer;
    private readonly Readers _readers;

    internal FeedLinks(Writer writer, Readers readers) => (_writer, _readers) = (writer, readers);

    /// <summary>Makes a link.</summary>
    /// <returns>Its secret, to be shown once, and the link.</returns>
    public async Task<(string Secret, FeedLink Link)> Create(Herd herd, string name, string style, string by, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        var secret = KeySecret.Create();
        var row = await _writer.Write(unit => unit.Connection.Sqlite.QuerySingle<FeedLinkRow>(
            $"""
            INSERT INTO feed_link (herd, link, name, style, hash, created, created_by)
            VALUES (@herd, (SELECT COALESCE(MAX(link), 0) + 1 FROM feed_link WHERE herd = @herd), @name, @style, @hash, @at, @by)
            RETURNING {FeedLinkRow.Columns}
            """,
            new { herd = herd.Id, name, style, hash = KeySecret.Hash(secret), at = Ticks.Of(unit.Record(now)), by })).ConfigureAwait(false);
        return (secret, row.ToLink());
    }

    /// <summary>The link of a secret, or null when there is none in the herd or it was revoked.</summary>
    // Found by the hash of the secret, which tells nothing of the secret itself.
    public FeedLink? Find(Herd herd, string secret)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => connection.Sqlite.QuerySingleOrDefault<FeedLinkRow>(
            $"{FeedLinkRow.Select} WHERE herd = @herd AND hash = @hash AND revoked IS NULL",
            new { herd = herd.Id, hash = KeySecret.Hash(secret) }))?.ToLink();
    }

    /// <summary>Every link of a herd, oldest first.</summary>
    public IReadOnlyList<FeedLink> List(Herd herd)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => connection.Sqlite.Query<FeedLinkRow>(
            $"{FeedLinkRow.Select} WHERE herd = @herd ORDER BY link", new { herd = herd.Id })
            .Select(row => row.ToLink())
            .ToArray());
    }

    /// <summary>Revokes a link; one that was revoked before stays so.</summary>
    /// <returns>False when the herd has no such link.</returns>
    public async Task<bool> Revoke(Herd herd, long link, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return await _writer.Write(unit => unit.Connection.Sqlite.Execute(
            "UPDATE feed_link SET revoked = COALESCE(revoked, @at) WHERE herd = @herd AND link = @link",
            new { herd = herd.Id, link, at = Ticks.Of(unit.Record(now)) })).ConfigureAwait(false) > 0;
    }
}

/// <summary>A row of <c>feed_link</c>.</summary>
internal sealed class FeedLinkRow
{
    public const string Columns = "link, name, style, created, created_by AS CreatedBy, revoked";

    public const string Select = $"SELECT {Columns} FROM feed_link";

    public long Link { get; init; }

    public string Name { get; init; } = "";

    public string Style { get; init; } = "";

    public long Created { get; init; }

    public string CreatedBy { get; init; } = "";

    public long? Revoked { get; init; }

    public FeedLink ToLink() => new(Link, Name, Style, Ticks.From(Created), CreatedBy, Ticks.From(Revoked));
}
