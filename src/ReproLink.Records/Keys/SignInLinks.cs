using System.Text.Json;
using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>Links that let a person in once. Only hashes are stored.</summary>
public sealed class SignInLinks
{
    private readonly Writer _writer;
    private readonly Readers _readers;
    private readonly Keys _keys;

    internal SignInLinks(Writer writer, Readers readers, Keys keys) => (_writer, _readers, _keys) = (writer, readers, keys);

    /// <summary>Makes a link.</summary>
    /// <returns>Its secret, to be shown once.</returns>
    public async Task<string> Create(KeyRole role, IReadOnlyList<LocationKey>? locations, Instant now, Duration lasts)
    {
        var secret = KeySecret.Create();
        var places = locations is null ? null : JsonSerializer.Serialize([.. locations], RecordsJson.Compact.ListLocationKey);
        await _writer.Write(unit => unit.Connection.Sqlite.Execute(
            "INSERT INTO sign_in_link (hash, role, locations, created, expires) VALUES (@hash, @role, @places, @at, @until)",
            new { hash = KeySecret.Hash(secret), role = (long)role, places, at = Ticks.Of(unit.Record(now)), until = Ticks.Of(now + lasts) })).ConfigureAwait(false);
        return secret;
    }

    /// <summary>The link of a secret, used and ended ones too; null = there is none.</summary>
    // Found by the hash of the secret, which tells nothing of the secret itself.
    public SignInLink? Find(string secret) => _readers.Read(connection =>
        connection.Sqlite.QuerySingleOrDefault<SignInLinkRow>(SignInLinkRow.Select, new { hash = KeySecret.Hash(secret) }))?.ToLink();

    /// <summary>Uses a link up and makes the key it promises, both or neither.</summary>
    /// <returns>The key's secret, to be shown once; null when the link opens nothing (any more).</returns>
    /// <exception cref="KeyNameTakenException">A key of that name holds; the link still opens.</exception>
    public async Task<string?> Use(string secret, string name, Instant now)
    {
        var made = KeySecret.Create();
        var hash = KeySecret.Hash(secret);
        var opened = await _writer.Write(unit =>
        {
            // Read within the one writer: of two who use it at once, one is second.
            if (unit.Connection.Sqlite.QuerySingleOrDefault<SignInLinkRow>(SignInLinkRow.Select, new { hash }) is not { } row || !row.ToLink().Opens(now))
            {
                return false;
            }

            Keys.Insert(unit, name, (KeyRole)row.Role, KeySecret.Hash(made), row.ToLink().Locations, now);
            unit.Connection.Sqlite.Execute(
                "UPDATE sign_in_link SET used = @at, used_by = @name WHERE link = @Link", new { at = Ticks.Of(unit.Record(now)), name, row.Link });
            return true;
        }).ConfigureAwait(false);
        _keys.Forget();
        return opened ? made : null;
    }
}
