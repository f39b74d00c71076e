using System.Globalization;
using CsvHelper;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Transfer;

/// <summary>CSV that people open in a spreadsheet: no cell of it is run as a formula (<see cref="CellGuard"/>).</summary>
internal static class CsvSheet
{
    /// <summary>Writes a header and its lines.</summary>
    public static string Write(string[] header, IEnumerable<string?[]> lines)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using var csv = new CsvWriter(text, CultureInfo.InvariantCulture);
        foreach (var cells in lines.Prepend(header))
        {
            foreach (var cell in cells)
            {
                csv.WriteField(CellGuard.Apply(cell));
            }

            csv.NextRecord();
        }

        csv.Flush();
        return text.ToString();
    }
}
