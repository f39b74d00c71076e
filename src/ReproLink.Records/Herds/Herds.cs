using System.Collections.Concurrent;
using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>The herds of this store.</summary>
public sealed class Herds
{
    private readonly Writer _writer;
    private readonly Readers _readers;
    private readonly ForeignWrites _foreign;
    private readonly ConcurrentDictionary<LocationKey, Herd> _known = new();
    private long _knownVersion;

    internal Herds(Writer writer, Readers readers, ForeignWrites foreign) =>
        (_writer, _readers, _foreign) = (writer, readers, foreign);

    /// <summary>Creates the herd at a location, or changes its name and time zone.</summary>
    /// <exception cref="ArgumentException">The time zone is none of the TZ database.</exception>
    public async Task<Herd> Put(LocationKey location, string name, string timeZone, Instant now)
    {
        ArgumentNullException.ThrowIfNull(location);
        RefuseUnknownZone(timeZone);
        var herd = await _writer.Write(unit => Put(unit, location, name, timeZone, now)).ConfigureAwait(false);
        _known[location] = herd;
        return herd;
    }

    /// <inheritdoc cref="Put(LocationKey, string, string, Instant)"/>
    public async Task<Once<Herd>> Put(
        LocationKey location, string name, string timeZone, Instant now, IdempotencyRecord idempotency, Func<Herd, StoredAnswer> render)
    {
        ArgumentNullException.ThrowIfNull(location);
        RefuseUnknownZone(timeZone);
        var once = await _writer.Write(unit => IdempotencyTable.Once(
            unit, herd: 0, idempotency, now, () => Put(unit, location, name, timeZone, now), render)).ConfigureAwait(false);
        if (once.Value is { } herd)
        {
            _known[location] = herd;
        }

        return once;
    }

    /// <summary>The herd at a location, or null.</summary>
    public Herd? Find(LocationKey location)
    {
        ArgumentNullException.ThrowIfNull(location);
        ForgetAfterForeignWrites();
        if (_known.TryGetValue(location, out var herd))
        {
            return herd;
        }

        herd = _readers.Read(connection => Find(connection, location));
        return herd is null ? null : _known.GetOrAdd(location, herd);
    }

    /// <summary>Every herd, in the order of scheme and id.</summary>
    public IReadOnlyList<Herd> All() => _readers.Read(connection => connection.Sqlite
        .Query<HerdRow>($"{HerdRow.Select} ORDER BY scheme, location")
        .Select(row => row.ToHerd())
        .ToArray());

    /// <summary>Facts not withdrawn, and the animals that have any.</summary>
    public (long Animals, long Facts) Counts(Herd herd)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection =>
        {
            var statement = connection.Prepared(
                """
                SELECT count(DISTINCT animal), count(*) FROM fact
                WHERE herd = ?1 AND NOT EXISTS (
                  SELECT 1 FROM withdrawal w WHERE w.herd = fact.herd AND w.animal = fact.animal AND w.fact = fact.fact)
                """).Bind(1, herd.Id);
            statement.Step();
            var counts = (statement.Long(0), statement.Long(1));
            statement.Reset();
            return counts;
        });
    }

    internal static Herd? Find(Connection connection, LocationKey location) => connection.Sqlite
        .QuerySingleOrDefault<HerdRow>(
            $"{HerdRow.Select} WHERE scheme = @Scheme AND location = @Id", location)
        ?.ToHerd();

    /// <summary>A herd as another write left it.</summary>
    internal void Remember(Herd herd) => _known[herd.Location] = herd;

    internal static Herd Put(WriteUnit unit, LocationKey location, string name, string timeZone, Instant now)
    {
        var before = Find(unit.Connection, location);
        if (before is not null && before.Name == name && before.TimeZone == timeZone)
        {
            return before;
        }

        var recorded = unit.Record(now);
        var herd = unit.Connection.Sqlite.QuerySingle<HerdRow>(
            $"""
            INSERT INTO herd (scheme, location, name, time_zone, created, changed)
            VALUES (@Scheme, @Id, @name, @timeZone, @at, @at)
            ON CONFLICT (scheme, location) DO UPDATE SET name = excluded.name, time_zone = excluded.time_zone, changed = excluded.changed
            RETURNING {HerdRow.Columns}
            """,
            new { location.Scheme, location.Id, name, timeZone, at = Ticks.Of(recorded) }).ToHerd();
        unit.Change(herd.Id, recorded, ChangeKind.Herd, animal: null, subject: herd.Id);
        return herd;
    }

    private static void RefuseUnknownZone(string timeZone)
    {
        if (DateTimeZoneProviders.Tzdb.GetZoneOrNull(timeZone) is null)
        {
            throw new ArgumentException($"'{timeZone}' is no time zone of the TZ database.", nameof(timeZone));
        }
    }

    private void ForgetAfterForeignWrites()
    {
        var version = _foreign.Version();
        if (Interlocked.Exchange(ref _knownVersion, version) != version)
        {
            _known.Clear();
        }
    }
}
