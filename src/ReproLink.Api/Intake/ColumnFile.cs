using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Intake;

/// <summary>A line of a sender's file.</summary>
/// <param name="Line">Its number, the header being 1.</param>
/// <param name="Raw">Its text as received.</param>
/// <param name="Cells">Its cells.</param>
/// <param name="Unreadable">Why its cells say nothing.</param>
internal sealed record ColumnLine(int Line, string Raw, string[] Cells, FieldProblem? Unreadable);

/// <summary>A sender's CSV file: their own headings, looked up by the mapping; their lines as cells.</summary>
internal sealed class ColumnFile
{
    private readonly Dictionary<string, int> _columns;

    private ColumnFile(string header, Dictionary<string, int> columns, IReadOnlyList<string> unread, IReadOnlyList<ColumnLine> lines) =>
        (Header, _columns, UnreadColumns, Lines) = (header, columns, unread, lines);

    /// <summary>The header line as received.</summary>
    public string Header { get; }

    /// <summary>Headings that the mapping does not read, as received.</summary>
    public IReadOnlyList<string> UnreadColumns { get; }

    public IReadOnlyList<ColumnLine> Lines { get; }

    /// <summary>The cell under a heading that was asked for, without the blanks around it; null when it is empty.</summary>
    public string? Cell(ColumnLine line, string heading) =>
        CellGuard.Undo(line.Cells[_columns[SenderWriting.Folded(heading)]]).Trim() is { Length: > 0 } cell ? cell : null;

    /// <summary>Reads a file.</summary>
    /// <param name="bytes">The file as it came.</param>
    /// <param name="writing">How the sender writes.</param>
    /// <param name="wanted">The headings the mapping reads, and for what.</param>
    /// <param name="sender">Whose mapping it is.</param>
    public static (ColumnFile? File, Problem? Refusal) Read(
        byte[] bytes, SenderWriting writing, IEnumerable<(string For, string Heading)> wanted, string sender)
    {
        if (SenderLetters.ToUtf8(bytes, writing.Letters) is not { } utf8)
        {
            return (null, Problem.Of(ProblemTypes.BadCsv, $"The file is not in {writing.Letters.WebName}: say in the mapping of {sender} how its `letters` are stored. Nothing was stored."));
        }

        var configuration = new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = writing.Delimiter.ToString(),
            IgnoreBlankLines = true,
            MaxFieldSize = CsvRows.LongestCell,
        };
        using var csv = new CsvParser(new StreamReader(new MemoryStream(utf8), Encoding.UTF8), configuration);
        try
        {
            if (!csv.Read() || csv.Record is not { } header)
            {
                return (null, Problem.Of(ProblemTypes.BadCsv, "The body is empty; allowed: the sender's header line, then their lines."));
            }

            var (columns, problems) = Columns(header, wanted, sender);
            if (problems.Any)
            {
                return (null, Problem.OfBody(problems.List));
            }

            var unread = header.Where(h => !columns.ContainsKey(SenderWriting.Folded(h))).ToArray();
            var raw = csv.RawRecord.TrimEnd('\r', '\n');
            return (new ColumnFile(raw, columns, unread, ReadLines(csv, header.Length)), null);
        }
        catch (CsvHelperException bad)
        {
            return (null, CsvRows.Unreadable(bad));
        }
    }

    private static (Dictionary<string, int> Columns, FieldProblems Problems) Columns(
        string[] header, IEnumerable<(string For, string Heading)> wanted, string sender)
    {
        var headings = header.Select(SenderWriting.Folded).ToArray();
        var columns = new Dictionary<string, int>(StringComparer.Ordinal);
        var problems = new FieldProblems();
        foreach (var (purpose, heading) in wanted)
        {
            var folded = SenderWriting.Folded(heading);
            if (columns.ContainsKey(folded))
            {
                continue;
            }

            var at = Array.IndexOf(headings, folded);
            columns[folded] = at;
            if (at < 0 || Array.LastIndexOf(headings, folded) != at)
            {
                problems.Add(ProblemTypes.MissingProperty, heading, null, $"the column '{heading}', once, for '{purpose}'",
                    $"The file has {(at < 0 ? "no" : "more than one")} column '{heading}', which the mapping of {sender} reads as '{purpose}'. Nothing was stored.");
            }
        }

        return (columns, problems);
    }

    private static List<ColumnLine> ReadLines(CsvParser csv, int cells)
    {
        var lines = new List<ColumnLine>();
        while (csv.Read())
        {
            var row = csv.Record!;
            var raw = csv.RawRecord.TrimEnd('\r', '\n');
            lines.Add(new ColumnLine(csv.RawRow, raw, row, row.Length == cells ? null : CsvRows.WrongLength(raw, row.Length, cells)));
        }

        return lines;
    }
}
