using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace ReproLink.Api.Intake;

/// <summary>A sender's file as a table, looked at before anybody said how it is read.</summary>
internal sealed record ForeignTable(string Delimiter, IReadOnlyList<string> Header, IReadOnlyList<string[]> Rows)
{
    private const int MostRows = 2000;

    // Headings that name one of our properties in plain words; anything else a person chooses.
    private static readonly Dictionary<string, string[]> Plain = new(StringComparer.Ordinal)
    {
        ["animal"] = ["ANIMAL", "COW", "ANIMAL ID", "COW ID", "EAR TAG"],
        ["tube"] = ["TUBE", "TUBE ID", "TUBE NO"],
        ["sampled"] = ["SAMPLED", "DRAWN", "DATE DRAWN", "SAMPLE DATE", "DRAWN ON"],
        ["outcome"] = ["OUTCOME", "RESULT"],
        ["value"] = ["VALUE"],
        ["unit"] = ["UNIT"],
        ["assay"] = ["ASSAY"],
        ["sourceId"] = ["SOURCEID", "LAB NO"],
        ["reported"] = ["REPORTED", "REPORT DATE"],
        ["method"] = ["METHOD"],
        ["specimen"] = ["SPECIMEN"],
        ["time"] = ["TIME"],
    };

    /// <summary>Takes a text apart.</summary>
    /// <param name="text">The file.</param>
    /// <param name="delimiter">What stands between the cells: a comma, a semicolon or <c>tab</c>; absent = what its first line has most of.</param>
    public static ForeignTable Read(string text, string? delimiter)
    {
        var first = text.Split('\n', 2)[0];
        delimiter ??= new[] { (",", ','), (";", ';'), ("tab", '\t') }.MaxBy(d => first.Count(c => c == d.Item2)).Item1;
        var configuration = new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = delimiter == "tab" ? "\t" : delimiter,
            IgnoreBlankLines = true,
            BadDataFound = null,
            MaxFieldSize = 100_000,
        };
        using var csv = new CsvParser(new StringReader(text), configuration);
        var header = csv.Read() ? csv.Record! : [];
        var rows = new List<string[]>();
        while (rows.Count < MostRows && csv.Read())
        {
            rows.Add(csv.Record!);
        }

        return new ForeignTable(delimiter, [.. header.Select(h => h.Trim())], rows);
    }

    /// <summary>The column that plainly is a property; null = a person must say.</summary>
    public string? Guess(string property) =>
        Plain.TryGetValue(property, out var names) ? names.Select(n => Header.FirstOrDefault(h => SenderWriting.Folded(h) == n)).FirstOrDefault(h => h is not null) : null;

    /// <summary>What stands in a column, each once.</summary>
    public IReadOnlyList<string> Values(string? heading)
    {
        var at = heading is null ? -1 : Header.ToList().FindIndex(h => SenderWriting.Folded(h) == SenderWriting.Folded(heading));
        return at < 0 ? [] : [.. Rows.Where(r => r.Length > at).Select(r => r[at].Trim()).Where(v => v.Length > 0).DistinctBy(SenderWriting.Folded)];
    }
}
