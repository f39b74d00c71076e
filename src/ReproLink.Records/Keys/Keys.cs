using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text.Json;
using Dapper;
using Microsoft.Data.Sqlite;
using NodaTime;

namespace ReproLink.Records;

/// <summary>The callers' keys. Only hashes are stored.</summary>
public sealed class Keys
{
    private const int UniqueViolation = 2067;
    private readonly Writer _writer;
    private readonly Readers _readers;
    private readonly ForeignWrites _foreign;
    private Known _known = new(0, Array.Empty<KeyRow>().ToLookup(Head));

    internal Keys(Writer writer, Readers readers, ForeignWrites foreign) =>
        (_writer, _readers, _foreign) = (writer, readers, foreign);

    /// <summary>Makes a key.</summary>
    /// <returns>The secret, to be shown once, and the key.</returns>
    /// <exception cref="KeyNameTakenException">A key of that name holds.</exception>
    public async Task<(string Secret, ApiKey Key)> Create(string name, KeyRole role, IReadOnlyList<LocationKey>? locations, Instant now)
    {
        var secret = KeySecret.Create();
        var hash = KeySecret.Hash(secret);
        var row = await _writer.Write(unit => Insert(unit, name, role, hash, locations, now)).ConfigureAwait(false);
        Forget();
        return (secret, row.ToKey());
    }

    /// <summary>The key of a secret, or null when there is none or it was revoked.</summary>
    public ApiKey? Authenticate(string secret)
    {
        ArgumentNullException.ThrowIfNull(secret);
        var hash = KeySecret.Hash(secret);
        // Only a hash of the secret is compared, and all of it whatever it is: time tells nothing.
        foreach (var row in Current().ByHead[Head(hash)])
        {
            if (CryptographicOperations.FixedTimeEquals(row.Hash, hash))
            {
                return row.Revoked is null ? row.ToKey() : null;
            }
        }

        return null;
    }

    /// <summary>Every key ever made, oldest first.</summary>
    public IReadOnlyList<ApiKey> List() => Read().Select(row => row.ToKey()).ToArray();

    /// <summary>Revokes the key of a name.</summary>
    /// <returns>False when no key of that name holds.</returns>
    public async Task<bool> Revoke(string name, Instant now)
    {
        var revoked = await _writer.Write(unit => unit.Connection.Sqlite.Execute(
            "UPDATE api_key SET revoked = @at WHERE name = @name AND revoked IS NULL",
            new { name, at = Ticks.Of(unit.Record(now)) })).ConfigureAwait(false);
        Forget();
        return revoked > 0;
    }

    internal static KeyRow Insert(
        WriteUnit unit, string name, KeyRole role, byte[] hash, IReadOnlyList<LocationKey>? locations, Instant now)
    {
        var places = locations is null ? null : JsonSerializer.Serialize([.. locations], RecordsJson.Compact.ListLocationKey);
        try
        {
            return unit.Connection.Sqlite.QuerySingle<KeyRow>(
                $"""
                INSERT INTO api_key (name, role, hash, locations, created) VALUES (@name, @role, @hash, @places, @at)
                RETURNING {KeyRow.Columns}
                """,
                new { name, role = (long)role, hash, places, at = Ticks.Of(unit.Record(now)) });
        }
        catch (SqliteException error) when (error.SqliteExtendedErrorCode == UniqueViolation)
        {
            throw new KeyNameTakenException(name);
        }
    }

    private Known Current()
    {
        var known = Volatile.Read(ref _known);
        var version = _foreign.Version();
        if (known.Version != version)
        {
            known = new Known(version, Read().ToLookup(Head));
            Volatile.Write(ref _known, known);
        }

        return known;
    }

    internal void Forget() => Volatile.Write(ref _known, _known with { Version = -1 });

    private KeyRow[] Read() => _readers.Read(connection =>
        connection.Sqlite.Query<KeyRow>($"{KeyRow.Select} ORDER BY key").ToArray());

    private static long Head(KeyRow row) => Head(row.Hash);

    private static long Head(byte[] hash) => BinaryPrimitives.ReadInt64BigEndian(hash);

    private sealed record Known(long Version, ILookup<long, KeyRow> ByHead);
}
