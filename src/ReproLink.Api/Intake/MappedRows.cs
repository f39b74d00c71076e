using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using CsvHelper;
using CsvHelper.Configuration;
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
        var configuration = new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = mapping.Delimiter.ToString(),
            IgnoreBlankLines = true,
            MaxFieldSize = 100_000,
        };
        using var csv = new CsvParser(new StreamReader(new MemoryStream(bytes), Encoding.UTF8), configuration);
        try
        {
            if (!csv.Read() || csv.Record is not { } header)
            {
                return (null, Problem.Of(ProblemTypes.BadCsv, "The body is empty; allowed: the sender's header line, then one line a result."));
            }

            var (columns, problems) = Columns(header);
            return problems.Any ? (null, Problem.OfBody(problems.List)) : (Rows(csv, header.Length, columns, csv.RawRecord.TrimEnd('\r', '\n')), null);
        }
        catch (BadDataException bad)
        {
            return (null, Problem.Of(ProblemTypes.BadCsv, $"Line {bad.Context?.Parser?.RawRow}: a quote is out of place or never closed. Nothing was stored."));
        }
    }

    private (Dictionary<string, int> Columns, FieldProblems Problems) Columns(string[] header)
    {
        var headings = header.Select(SenderMapping.Folded).ToArray();
        var columns = new Dictionary<string, int>(StringComparer.Ordinal);
        var problems = new FieldProblems();
        foreach (var (property, heading) in mapping.Columns)
        {
            var at = Array.IndexOf(headings, SenderMapping.Folded(heading));
            if (at < 0 || Array.LastIndexOf(headings, headings[at]) != at)
            {
                problems.Add(ProblemTypes.MissingProperty, heading, null, $"the column '{heading}', once, for '{property}'",
                    $"The file has {(at < 0 ? "no" : "more than one")} column '{heading}', which the mapping of {mapping.Sender} reads as '{property}'. Nothing was stored.");
            }

            columns[property] = at;
        }

        return (columns, problems);
    }

    private CsvRows Rows(CsvParser csv, int cells, Dictionary<string, int> columns, string header)
    {
        var buffer = new MemoryStream();
        var lines = new List<(int, FieldProblem?, string)>();
        using var json = new Utf8JsonWriter(buffer);
        json.WriteStartArray();
        while (csv.Read())
        {
            var row = csv.Record!;
            var raw = csv.RawRecord.TrimEnd('\r', '\n');
            var right = row.Length == cells;
            WriteItem(json, right ? Properties(row, columns) : []);
            lines.Add((csv.RawRow, right ? null : CsvRows.WrongLength(raw, row.Length, cells), raw));
        }

        json.WriteEndArray();
        json.Flush();
        return new CsvRows(buffer.ToArray(), lines) { Header = header };
    }

    private SortedDictionary<string, string> Properties(string[] row, Dictionary<string, int> columns)
    {
        var properties = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var (property, at) in columns)
        {
            if (row[at].Trim() is { Length: > 0 } cell)
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

        if (!columns.ContainsKey("sampled") && properties.GetValueOrDefault("tube") is { } tube && DrawnOn(tube) is { } day)
        {
            properties["sampled"] = day;
        }

        properties["source"] = mapping.Sender;
        if (!columns.ContainsKey("sourceId"))
        {
            properties["sourceId"] = IdOf(properties);
        }

        return properties;
    }

    private string? DrawnOn(string tube) => TubeNames.Read(tube) is var (round, number) && tubes.Find(round)?.Find(number) is { Standing: { HasBlood: true, Marked: { } drawn } }
        ? drawn.Day.ToString()
        : null;

    // All that the line says but when it was reported: the same line in a later file is the same result, another one never
    // takes its place unseen.
    private static string IdOf(SortedDictionary<string, string> properties)
    {
        var said = string.Join('\n', properties.Where(p => p.Key != "reported").Select(p => $"{p.Key}\t{p.Value}"));
        return "line-" + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(said)).AsSpan(0, 8));
    }

    private static void WriteItem(Utf8JsonWriter json, SortedDictionary<string, string> properties)
    {
        json.WriteStartObject();
        foreach (var (name, text) in properties)
        {
            json.WritePropertyName(name);
            if (name == "value" && CsvCells.IsJsonNumber(text))
            {
                json.WriteRawValue(text);
            }
            else if (name == "corpusLuteum" && text.ToUpperInvariant() is ("TRUE" or "FALSE"))
            {
                json.WriteBooleanValue(text.Equals("true", StringComparison.OrdinalIgnoreCase));
            }
            else
            {
                json.WriteStringValue(text);
            }
        }

        json.WriteEndObject();
    }
}
