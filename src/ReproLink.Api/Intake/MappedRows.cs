using ReproLink.Api.Access;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Rounds;
using ReproLink.Records;

namespace ReproLink.Api.Intake;

/// <summary>A sender's file turned into the results it stands for, so that one reader judges all forms.</summary>
internal sealed class MappedRows(SenderMapping mapping, HerdRequest request, TubeRegister tubes)
{
    public (CsvRows? Rows, Problem? Refusal) Read(byte[] bytes)
    {
        var (file, refusal) = ColumnFile.Read(bytes, mapping.Writing, mapping.Columns.Select(c => (c.Key, c.Value)), mapping.Sender);
        return file is null ? (null, refusal) : (Rows(file), null);
    }

    private CsvRows Rows(ColumnFile file)
    {
        using var items = new MappedItems();
        foreach (var line in file.Lines)
        {
            items.Add(line.Unreadable is null ? Properties(file, line) : [], line.Line, line.Unreadable, line.Raw);
        }

        return items.Rows(file.Header);
    }

    private SortedDictionary<string, string> Properties(ColumnFile file, ColumnLine line)
    {
        var properties = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var (property, heading) in mapping.Columns)
        {
            if (file.Cell(line, heading) is { } cell)
            {
                properties[property] = mapping.Read(property, cell, request.Now, request.Zone);
            }
        }

        foreach (var (property, text) in mapping.Fixed)
        {
            properties[property] = text;
        }

        if (!properties.ContainsKey("value"))
        {
            // A unit without a value says nothing; a fixed one would otherwise stand beside every outcome.
            properties.Remove("unit");
        }

        if (!mapping.Columns.ContainsKey("sampled") && properties.GetValueOrDefault("tube") is { } tube && DrawnOn(tube) is { } day)
        {
            properties["sampled"] = day;
        }

        properties["source"] = mapping.Sender;
        if (!mapping.Columns.ContainsKey("sourceId"))
        {
            // All that the line says but when it was reported: the same line in a later file is the same result, another one never
            // takes its place unseen.
            properties["sourceId"] = MappedItems.IdOf("line", properties.Where(p => p.Key != "reported"));
        }

        return properties;
    }

    private string? DrawnOn(string tube) => TubeNames.Read(tube) is var (round, number) && tubes.Find(round)?.Find(number) is { Standing: { HasBlood: true, Marked: { } drawn } }
        ? drawn.Day.ToString()
        : null;
}
