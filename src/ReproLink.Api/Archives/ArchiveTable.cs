using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Archives;

/// <summary>One CSV file of the zip: exact, nothing guarded, nothing trimmed.</summary>
internal static class ArchiveTable
{
    private const int MostProblems = 50;

    public static void Write(Stream stream, string[] columns, IEnumerable<string?[]> lines)
    {
        using var text = new StreamWriter(stream, new UTF8Encoding(false), leaveOpen: true);
        using var csv = new CsvWriter(text, Configuration());
        foreach (var cells in lines.Prepend(columns))
        {
            foreach (var cell in cells)
            {
                csv.WriteField(cell);
            }

            csv.NextRecord();
        }
    }

    /// <summary>Reads a file line by line; stops when it is clear that it cannot be read.</summary>
    public static void Read(Stream stream, string file, string[] columns, FieldProblems problems, Action<ArchiveLine> take)
    {
        using var csv = new CsvParser(new StreamReader(stream, Strict, detectEncodingFromByteOrderMarks: false), Configuration());
        try
        {
            if (!csv.Read() || csv.Record is not { } header || !header.SequenceEqual(columns))
            {
                var allowed = "the columns " + string.Join(",", columns);
                problems.Add(ProblemTypes.BadArchive, file, null, allowed, $"{file} has other columns; allowed: {allowed}.");
                return;
            }

            var line = new ArchiveLine(file, columns.Select((name, i) => (name, i)).ToDictionary(c => c.name, c => c.i, StringComparer.Ordinal), problems);
            while (problems.List.Count < MostProblems && csv.Read())
            {
                if (csv.Record!.Length == columns.Length)
                {
                    take(line.At(csv.Record, csv.RawRow));
                }
                else
                {
                    problems.Add(ProblemTypes.BadCsvLine, $"{file}/{csv.RawRow}", null, $"{columns.Length} cells", $"{file}, line {csv.RawRow}: the line has {csv.Record.Length} cells and the header {columns.Length}.");
                }
            }
        }
        catch (BadDataException)
        {
            problems.Add(ProblemTypes.BadCsvLine, file, null, "quoted cells closed", $"{file}: a quote is out of place or never closed.");
        }
        catch (DecoderFallbackException)
        {
            problems.Add(ProblemTypes.BadArchive, file, null, "UTF-8", $"{file} is not UTF-8.");
        }
    }

    private static Encoding Strict => new UTF8Encoding(false, throwOnInvalidBytes: true);

    private static CsvConfiguration Configuration() => new(CultureInfo.InvariantCulture) { NewLine = "\r\n", TrimOptions = TrimOptions.None };
}
