using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Intake;

/// <summary>Items read from a sender's lines, written as the JSON they would have been sent in.</summary>
internal sealed class MappedItems : IDisposable
{
    private readonly MemoryStream _buffer = new();
    private readonly Utf8JsonWriter _json;
    private readonly List<(int, FieldProblem?, string)> _lines = [];

    public MappedItems()
    {
        _json = new Utf8JsonWriter(_buffer);
        _json.WriteStartArray();
    }

    /// <summary>
    /// An id made from what is said, for files that have none: the same said again has the same. What is computed from the file's
    /// moment must not be among it.
    /// </summary>
    public static string IdOf(string prefix, IEnumerable<KeyValuePair<string, string>> said)
    {
        // As the first mappings did it: ids made then must be made again.
        var text = string.Join('\n', said.Select(p => $"{p.Key}\t{p.Value}"));
        return $"{prefix}-" + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)).AsSpan(0, 8));
    }

    /// <summary>Adds an item.</summary>
    /// <param name="properties">Its properties, in their order.</param>
    /// <param name="line">The line it stands in.</param>
    /// <param name="unreadable">Why it cannot be read.</param>
    /// <param name="raw">The line as received.</param>
    public void Add(SortedDictionary<string, string> properties, int line, FieldProblem? unreadable, string raw)
    {
        _json.WriteStartObject();
        foreach (var (name, text) in properties.Where(p => !p.Key.StartsWith(FactProperties.Identifier, StringComparison.Ordinal)))
        {
            _json.WritePropertyName(name);
            WriteValue(name, text);
        }

        WriteIdentifiers(properties);
        _json.WriteEndObject();
        _lines.Add((line, unreadable, raw));
    }

    public CsvRows Rows(string header)
    {
        _json.WriteEndArray();
        _json.Flush();
        return new CsvRows(_buffer.ToArray(), _lines) { Header = header };
    }

    public void Dispose()
    {
        _json.Dispose();
        _buffer.Dispose();
    }

    private void WriteValue(string name, string text)
    {
        if (name is "value" or "parity" or "embryoAgeDays" && CsvCells.IsJsonNumber(text))
        {
            _json.WriteRawValue(text);
        }
        else if (name is "corpusLuteum" or "examined" or "notDone" && text.ToUpperInvariant() is "TRUE" or "FALSE")
        {
            _json.WriteBooleanValue(text.Equals("true", StringComparison.OrdinalIgnoreCase));
        }
        else
        {
            _json.WriteStringValue(text);
        }
    }

    private void WriteIdentifiers(SortedDictionary<string, string> properties)
    {
        var identifiers = properties.Where(p => p.Key.StartsWith(FactProperties.Identifier, StringComparison.Ordinal)).ToArray();
        if (identifiers.Length == 0)
        {
            return;
        }

        _json.WriteStartArray("identifiers");
        foreach (var (name, id) in identifiers)
        {
            _json.WriteStartObject();
            _json.WriteString("scheme", name[FactProperties.Identifier.Length..]);
            _json.WriteString("id", id);
            _json.WriteEndObject();
        }

        _json.WriteEndArray();
    }
}
