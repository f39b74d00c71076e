using System.Text.Json;
using NodaTime;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <content>Its files, one by one.</content>
internal sealed partial class ZipReader
{
    private ReadArchive? Read()
    {
        var (name, timeZone) = Json(ArchiveFiles.Herd, HerdCard);
        if (_problems.Any)
        {
            return null;
        }

        var today = Day.From(_now.InZone(DateTimeZoneProviders.Tzdb[timeZone!]).Date);
        var latest = today + DaysAhead;
        var rows = new List<KeptRecord>();
        Table(ArchiveFiles.Facts, FactTable.Columns, line => Add(rows, FactTable.Read(line, latest)));
        Table(ArchiveFiles.Results, ResultTable.Columns, line => Add(rows, ResultTable.Read(line, latest)));
        Table(ArchiveFiles.Held, HeldTable.Columns, line => Add(rows, HeldTable.Read(line, latest)));
        var protocols = Json(ArchiveFiles.Protocols, ProtocolFile.Read);
        var (versions, approvals, refusals) = Json(ArchiveFiles.Programmes, reader => ProgrammeFile.Read(reader, today, protocols.Catalogue));
        rows.AddRange(protocols.Own);
        rows.AddRange(versions);
        rows.AddRange(refusals);
        // Of one place, in this order: the list, its tubes, what left, and with what.
        Table(ArchiveFiles.Rounds, RoundTables.Rounds, line => rows.Add(RoundTables.ReadRound(line)));
        Table(ArchiveFiles.Tubes, RoundTables.Tubes, line => rows.Add(RoundTables.ReadTube(line)));
        Table(ArchiveFiles.Dispatches, RoundTables.Dispatches, line => rows.Add(RoundTables.ReadDispatch(line)));
        Table(ArchiveFiles.TubeEvents, RoundTables.Events, line => rows.Add(RoundTables.ReadEvent(line)));
        var (batches, lines) = (new List<KeptBatch>(), new List<KeptLine>());
        Table(ArchiveFiles.Batches, ReceivedTables.Batches, line => batches.Add(ReceivedTables.ReadBatch(line)));
        Table(ArchiveFiles.Lines, ReceivedTables.Lines, line => lines.Add(ReceivedTables.ReadLine(line)));
        var (results, facts) = Json(ArchiveFiles.Mappings, MappingFile.Read);
        return new ReadArchive(
            new HerdArchive { Name = name!, TimeZone = timeZone!, Rows = rows, Batches = batches, Lines = lines, ResultMappings = results, FactMappings = facts },
            approvals, protocols.Confirmed);
    }

    private static (string? Name, string? TimeZone) HerdCard(ObjectReader reader)
    {
        var card = (reader.Text("name", TextRule.Label, required: true), reader.Text("timeZone", TextRule.Name, required: true));
        if (card.Item2 is { } zone && DateTimeZoneProviders.Tzdb.GetZoneOrNull(zone) is null)
        {
            reader.Refuse("timeZone", ProblemTypes.InvalidValue, "a time zone of the IANA database, e.g. America/Chicago");
        }

        reader.Done();
        return card;
    }

    private static void Add(List<KeptRecord> rows, KeptFact fact)
    {
        rows.Add(fact);
        rows.AddRange(fact.Withdrawn is { } withdrawn ? [withdrawn] : []);
    }

    private static void Add(List<KeptRecord> rows, KeptHeld held)
    {
        rows.Add(held);
        rows.AddRange(held.End is { } end ? [end] : []);
    }

    private void Table(string name, string[] columns, Action<ArchiveLine> take)
    {
        using var stream = _entries[name].Open();
        ArchiveTable.Read(stream, name, columns, _problems, take);
    }

    // What is no JSON is read as an object that says nothing, so that every file is judged.
    private T Json<T>(string name, Func<ObjectReader, T> read)
    {
        using var stream = _entries[name].Open();
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        var document = ArchiveJson.Parse(bytes.ToArray());
        if (document is not { RootElement.ValueKind: JsonValueKind.Object })
        {
            Refuse(name, "is not a JSON object");
        }

        using var said = document is { RootElement.ValueKind: JsonValueKind.Object } ? document : JsonDocument.Parse("{}");
        return read(new ObjectReader(said.RootElement, _problems, name));
    }
}
