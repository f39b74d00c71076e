using Microsoft.Data.Sqlite;
using NodaTime;

namespace ReproLink.Records;

/// <summary>What became of an archive that was to be put back.</summary>
public enum RestoreStatus
{
    /// <summary>All of it is on record.</summary>
    Restored = 1,

    /// <summary>The herd has records already: nothing was done.</summary>
    NotEmpty = 2,

    /// <summary>The records contradict each other, or the clock: nothing was done.</summary>
    Refused = 3,
}

/// <summary>What became of it, and why not.</summary>
/// <param name="Status">What became of it.</param>
/// <param name="Why">What contradicts what.</param>
/// <param name="Herd">The herd as it is now.</param>
public sealed record RestoreAnswer(RestoreStatus Status, string? Why, Herd? Herd);

/// <summary>Herds taken out whole, and put back into an empty one.</summary>
public sealed class HerdArchives
{
    private const int ConstraintFailed = 19;
    private readonly Writer _writer;
    private readonly Readers _readers;
    private readonly Herds _herds;

    internal HerdArchives(Writer writer, Readers readers, Herds herds) => (_writer, _readers, _herds) = (writer, readers, herds);

    /// <summary>Looks at all a herd has on record, at one moment.</summary>
    public T Read<T>(Herd herd, Func<HerdRecords, T> look)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(look);
        return _readers.Read(connection => look(new HerdRecords(connection, herd)));
    }

    /// <summary>
    /// Puts an archive into an empty herd, all of it or nothing. This is the one door through which recorded instants come in: none
    /// may be later than now. The herd's changes are new ones of now: whoever follows them misses nothing. It holds up every other
    /// write while it runs.
    /// </summary>
    public async Task<RestoreAnswer> Restore(Herd herd, HerdArchive archive, Instant now, CancellationToken ct = default)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(archive);
        try
        {
            var answer = await _writer.Write(unit => Restore(unit, herd, archive, now), ct).ConfigureAwait(false);
            if (answer.Herd is { } changed)
            {
                _herds.Remember(changed);
            }

            return answer;
        }
        catch (ArchiveContradictionException contradiction)
        {
            return new RestoreAnswer(RestoreStatus.Refused, contradiction.Message, null);
        }
        catch (SqliteException constraint) when (constraint.SqliteErrorCode == ConstraintFailed)
        {
            return new RestoreAnswer(RestoreStatus.Refused, "two records claim one place, or one speaks of another that is not there", null);
        }
    }

    private static RestoreAnswer Restore(WriteUnit unit, Herd herd, HerdArchive archive, Instant now)
    {
        if (!IsEmpty(unit.Connection, herd.Id))
        {
            return new RestoreAnswer(RestoreStatus.NotEmpty, null, null);
        }

        var put = Herds.Put(unit, herd.Location, archive.Name, archive.TimeZone, now);
        new ArchiveWriter(unit, herd.Id, unit.Record(now)).Write(archive);
        return new RestoreAnswer(RestoreStatus.Restored, null, put);
    }

    // Whatever was ever recorded of it, but that it was made and named, and links to its calendar, which show nothing yet.
    private static bool IsEmpty(Connection connection, long herd)
    {
        var any = connection.Prepared(
            """
            SELECT EXISTS (SELECT 1 FROM change WHERE herd = ?1 AND kind <> 1) OR EXISTS (SELECT 1 FROM received_batch WHERE herd = ?1)
              OR EXISTS (SELECT 1 FROM result_mapping WHERE herd = ?1) OR EXISTS (SELECT 1 FROM fact_mapping WHERE herd = ?1)
            """).Bind(1, herd);
        any.Step();
        var empty = any.Long(0) == 0;
        any.Reset();
        return empty;
    }
}

/// <summary>Records of an archive that cannot all be true.</summary>
internal sealed class ArchiveContradictionException(string message) : Exception(message);
