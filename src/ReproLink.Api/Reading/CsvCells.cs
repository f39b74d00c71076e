using System.Globalization;
using System.Text.Json;

namespace ReproLink.Api.Reading;

/// <summary>One CSV line as the properties of a JSON object.</summary>
internal static class CsvCells
{
    public static void Write(Utf8JsonWriter json, string[] header, string[] row, CsvShape shape)
    {
        for (var i = 0; i < header.Length; i++)
        {
            if (row[i].Length > 0 && !header[i].Contains('.', StringComparison.Ordinal))
            {
                json.WritePropertyName(header[i]);
                WriteValue(json, header[i], row[i], shape);
            }
        }

        foreach (var nested in header.Select((name, i) => (name, cell: row[i])).Where(c => c.cell.Length > 0 && c.name.Contains('.', StringComparison.Ordinal)).GroupBy(c => c.name[..c.name.IndexOf('.', StringComparison.Ordinal)]))
        {
            json.WriteStartObject(nested.Key);
            foreach (var (name, cell) in nested)
            {
                json.WriteString(name[(nested.Key.Length + 1)..], cell);
            }

            json.WriteEndObject();
        }
    }

    // A cell that is not what its column carries stays text: the reader then refuses it by name, with the value as sent.
    private static void WriteValue(Utf8JsonWriter json, string column, string cell, CsvShape shape)
    {
        if (shape.Numbers.Contains(column) && IsJsonNumber(cell))
        {
            json.WriteRawValue(cell);
        }
        else if (shape.Truths.Contains(column) && cell is "true" or "false")
        {
            json.WriteBooleanValue(cell == "true");
        }
        else if (shape.Lists.Contains(column))
        {
            WriteIdentifiers(json, cell);
        }
        else
        {
            json.WriteStringValue(cell);
        }
    }

    private static void WriteIdentifiers(Utf8JsonWriter json, string cell)
    {
        json.WriteStartArray();
        foreach (var part in cell.Split(';', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var at = part.IndexOf('=', StringComparison.Ordinal);
            json.WriteStartObject();
            json.WriteString("scheme", at < 0 ? part : part[..at]);
            if (at >= 0)
            {
                json.WriteString("id", part[(at + 1)..]);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    public static bool IsJsonNumber(string cell)
    {
        const NumberStyles Style = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;
        if (!double.TryParse(cell, Style, CultureInfo.InvariantCulture, out _))
        {
            return false;
        }

        try
        {
            // ".5" and "+1" are numbers to the parser above and none to JSON.
            using var _ = JsonDocument.Parse(cell);
            return true;
        }
        catch (JsonException)
        {
            return false;
        }
    }
}
