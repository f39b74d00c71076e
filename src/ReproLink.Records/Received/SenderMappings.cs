using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>How a sender's files are read, as saved.</summary>
/// <param name="Sender">The sender.</param>
/// <param name="Version">Its version.</param>
/// <param name="Json">The mapping.</param>
/// <param name="Saved">When.</param>
/// <param name="SavedBy">By which key.</param>
public sealed record SavedMapping(string Sender, int Version, string Json, Instant Saved, string SavedBy);

/// <summary>The mappings of a herd's senders for one kind of file; every version is kept.</summary>
public sealed class SenderMappings
{
    internal const string OfResults = "result_mapping";
    internal const string OfFacts = "fact_mapping";

    private readonly Writer _writer;
    private readonly Readers _readers;
    private readonly string _table;

    /// <param name="writer">Writes.</param>
    /// <param name="readers">Reads.</param>
    /// <param name="table">One of the tables named above.</param>
    internal SenderMappings(Writer writer, Readers readers, string table) => (_writer, _readers, _table) = (writer, readers, table);

    /// <summary>Saves a mapping; the same again is no new version.</summary>
    public Task<SavedMapping> Save(Herd herd, string sender, string json, string by, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit =>
        {
            var latest = Latest(unit.Connection, herd.Id, sender);
            if (latest?.Json == json)
            {
                return latest;
            }

            var saved = new SavedMapping(sender, (latest?.Version ?? 0) + 1, json, unit.Record(now), by);
            MappingRow.Insert(unit.Connection, _table, herd.Id, saved);
            return saved;
        });
    }

    /// <summary>The mapping of a sender that counts; null = none was saved.</summary>
    public SavedMapping? Find(Herd herd, string sender)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => Latest(connection, herd.Id, sender));
    }

    /// <summary>The senders a mapping was saved for, in the order of their names.</summary>
    public IReadOnlyList<string> Senders(Herd herd)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => connection.Sqlite
            .Query<string>($"SELECT DISTINCT sender FROM {_table} WHERE herd = @herd ORDER BY sender", new { herd = herd.Id })
            .AsList());
    }

    private SavedMapping? Latest(Connection connection, long herd, string sender) => connection.Sqlite
        .QueryFirstOrDefault<MappingRow>(
            $"{MappingRow.Columns} FROM {_table} WHERE herd = @herd AND sender = @sender ORDER BY version DESC LIMIT 1", new { herd, sender })
        ?.ToMapping();
}

/// <summary>A row of a table of mappings.</summary>
internal sealed class MappingRow
{
    public const string Columns = "SELECT sender, version, mapping, recorded, saved_by AS SavedBy";

    public const string Select = $"{Columns} FROM {SenderMappings.OfResults}";

    public string Sender { get; init; } = "";

    public int Version { get; init; }

    public string Mapping { get; init; } = "";

    public long Recorded { get; init; }

    public string SavedBy { get; init; } = "";

    public SavedMapping ToMapping() => new(Sender, Version, Mapping, Ticks.From(Recorded), SavedBy);

    public static void Insert(Connection connection, string table, long herd, SavedMapping saved) => connection.Sqlite.Execute(
        $"INSERT INTO {table} (herd, sender, version, recorded, mapping, saved_by) VALUES (@herd, @Sender, @Version, @at, @Json, @SavedBy)",
        new { herd, saved.Sender, saved.Version, at = Ticks.Of(saved.Saved), saved.Json, saved.SavedBy });
}
