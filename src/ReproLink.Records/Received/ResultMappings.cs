using Dapper;
using NodaTime;

namespace ReproLink.Records;

/// <summary>How a sender's files are read, as saved.</summary>
/// <param name="Sender">The sender.</param>
/// <param name="Version">Its version.</param>
/// <param name="Json">The mapping.</param>
/// <param name="Saved">When.</param>
/// <param name="SavedBy">By which key.</param>
public sealed record ResultMapping(string Sender, int Version, string Json, Instant Saved, string SavedBy);

/// <summary>The mappings of the senders of a herd's results; every version is kept.</summary>
public sealed class ResultMappings
{
    private readonly Writer _writer;
    private readonly Readers _readers;

    internal ResultMappings(Writer writer, Readers readers) => (_writer, _readers) = (writer, readers);

    /// <summary>Saves a mapping; the same again is no new version.</summary>
    public Task<ResultMapping> Save(Herd herd, string sender, string json, string by, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _writer.Write(unit =>
        {
            var latest = Latest(unit.Connection, herd.Id, sender);
            if (latest?.Json == json)
            {
                return latest;
            }

            var saved = new ResultMapping(sender, (latest?.Version ?? 0) + 1, json, unit.Record(now), by);
            unit.Connection.Sqlite.Execute(
                "INSERT INTO result_mapping (herd, sender, version, recorded, mapping, saved_by) VALUES (@herd, @sender, @Version, @at, @json, @by)",
                new { herd = herd.Id, sender, saved.Version, at = Ticks.Of(saved.Saved), json, by });
            return saved;
        });
    }

    /// <summary>The mapping of a sender that counts; null = none was saved.</summary>
    public ResultMapping? Find(Herd herd, string sender)
    {
        ArgumentNullException.ThrowIfNull(herd);
        return _readers.Read(connection => Latest(connection, herd.Id, sender));
    }

    private static ResultMapping? Latest(Connection connection, long herd, string sender) => connection.Sqlite
        .QueryFirstOrDefault<MappingRow>($"{MappingRow.Select} WHERE herd = @herd AND sender = @sender ORDER BY version DESC LIMIT 1", new { herd, sender })
        ?.ToMapping();
}

/// <summary>A row of <c>result_mapping</c>.</summary>
internal sealed class MappingRow
{
    public const string Select = "SELECT sender, version, mapping, recorded, saved_by AS SavedBy FROM result_mapping";

    public string Sender { get; init; } = "";

    public int Version { get; init; }

    public string Mapping { get; init; } = "";

    public long Recorded { get; init; }

    public string SavedBy { get; init; } = "";

    public ResultMapping ToMapping() => new(Sender, Version, Mapping, Ticks.From(Recorded), SavedBy);
}
