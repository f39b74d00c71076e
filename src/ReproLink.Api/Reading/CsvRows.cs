using System.Globalization;
using System.Text;
using System.Text.Json;
using CsvHelper;
using CsvHelper.Configuration;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Reading;

/// <summary>The columns of a CSV body and which of them are not text.</summary>
/// <param name="Columns">Names allowed in the header.</param>
/// <param name="Numbers">Columns that carry numbers.</param>
/// <param name="Truths">Columns that carry true or false.</param>
/// <param name="Lists">Columns that carry <c>scheme=id;scheme=id</c>.</param>
internal sealed record CsvShape(
    IReadOnlySet<string> Columns, IReadOnlySet<string> Numbers, IReadOnlySet<string> Truths, IReadOnlySet<string> Lists);

/// <summary>
/// CSV turned into the JSON it stands for, so that one reader judges both forms. An empty cell is an absent property; a name
/// with a dot is a property of a nested object.
/// </summary>
internal sealed record CsvRows(byte[] Json, IReadOnlyList<(int Line, FieldProblem? Unreadable, string Raw)> Lines)
{
    /// <summary>Longest cell, in characters.</summary>
    public const int LongestCell = 100_000;

    /// <summary>The header line as received.</summary>
    public string? Header { get; init; }

    public static (CsvRows? Rows, Problem? Refusal) Read(byte[] bytes, CsvShape shape)
    {
        using var csv = new CsvParser(new StreamReader(new MemoryStream(bytes), Encoding.UTF8), Configuration);
        try
        {
            if (!csv.Read() || csv.Record is not { } header)
            {
                return (null, Problem.Of(ProblemTypes.BadCsv, "The body is empty; allowed: a header line of the documented names, then one line an item."));
            }

            return HeaderProblem(header, shape) is { } refusal ? (null, refusal) : (ReadRows(csv, header, shape), null);
        }
        catch (CsvHelperException bad)
        {
            return (null, Unreadable(bad));
        }
    }

    /// <summary>Why nothing of a file can be read.</summary>
    public static Problem Unreadable(CsvHelperException bad)
    {
        var why = bad is MaxFieldSizeException ? $"a cell is longer than {LongestCell} characters" : "a quote is out of place or never closed";
        return Problem.Of(ProblemTypes.BadCsv, $"Line {bad.Context?.Parser?.RawRow}: {why}. Nothing was stored.");
    }

    private static CsvConfiguration Configuration => new(CultureInfo.InvariantCulture)
    {
        Delimiter = ",",
        IgnoreBlankLines = true,
        TrimOptions = TrimOptions.None,
        MaxFieldSize = LongestCell,
    };

    private static Problem? HeaderProblem(string[] header, CsvShape shape)
    {
        var problems = new FieldProblems();
        var allowed = "each once, only " + string.Join(", ", shape.Columns);
        foreach (var name in header.Where((name, i) => !shape.Columns.Contains(name) || Array.IndexOf(header, name) < i))
        {
            problems.Add(ProblemTypes.UnknownProperty, name, name, allowed, $"The header names the column '{name}', which is not known here or there twice.");
        }

        return problems.Any ? Problem.OfBody(problems.List) : null;
    }

    private static CsvRows ReadRows(CsvParser csv, string[] header, CsvShape shape)
    {
        var names = csv.RawRecord.TrimEnd('\r', '\n');
        var buffer = new MemoryStream();
        var lines = new List<(int, FieldProblem?, string)>();
        using var json = new Utf8JsonWriter(buffer);
        json.WriteStartArray();
        while (csv.Read())
        {
            json.WriteStartObject();
            var row = csv.Record!;
            if (row.Length == header.Length)
            {
                CsvCells.Write(json, header, Array.ConvertAll(row, CellGuard.Undo), shape);
            }

            json.WriteEndObject();
            var raw = csv.RawRecord.TrimEnd('\r', '\n');
            lines.Add((csv.RawRow, row.Length == header.Length ? null : WrongLength(raw, row.Length, header.Length), raw));
        }

        json.WriteEndArray();
        json.Flush();
        return new CsvRows(buffer.ToArray(), lines) { Header = names };
    }

    public static FieldProblem WrongLength(string line, int cells, int wanted)
    {
        var problems = new FieldProblems();
        problems.Add(ProblemTypes.BadCsvLine, "", line, $"{wanted} cells, as in the header", $"the line has {cells} cells and the header has {wanted}.");
        return problems.List[0];
    }
}
