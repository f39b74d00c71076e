using System.Text.Json;
using ReproLink.Api.Facts;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Intake;

/// <summary>The parts of a mapping, each judged by name.</summary>
internal static class MappingReader
{
    private const int MostWords = 200;
    private static readonly string AllowedProperties = "one of " + string.Join(", ", SenderMapping.Properties.Order(StringComparer.Ordinal));

    public static IReadOnlyDictionary<string, string> Columns(ObjectReader reader)
    {
        var columns = Texts(reader, "columns", required: true, IsProperty, AllowedProperties, TextRule.Label.Accepts, TextRule.Label.Allowed);
        if (reader.Has("columns") && !columns.ContainsKey("animal") && !columns.ContainsKey("tube"))
        {
            reader.Refuse("columns", ProblemTypes.MissingProperty, "a column for 'animal' or 'tube', or both");
        }

        if (reader.Has("columns") && !columns.ContainsKey("outcome") && !columns.ContainsKey("value"))
        {
            reader.Refuse("columns", ProblemTypes.MissingProperty, "a column for 'outcome' or 'value', or both");
        }

        return columns;
    }

    public static IReadOnlyDictionary<string, string> Fixed(ObjectReader reader, IReadOnlyDictionary<string, string> columns) => Texts(
        reader, "fixed", required: false,
        name => name is "method" or "specimen" or "unit" or "assay" or "examiner" && !columns.ContainsKey(name),
        "method, specimen, unit, assay or examiner, where it is no column", TextRule.Label.Accepts, TextRule.Label.Allowed);

    public static IReadOnlyDictionary<string, string>? Outcomes(ObjectReader reader)
    {
        var words = Texts(reader, "outcomes", required: false, TextRule.Label.Accepts, TextRule.Label.Allowed,
            word => FactVocabulary.Outcomes.TryRead(word, out var _), FactVocabulary.Outcomes.Allowed);
        if (words.Keys.GroupBy(SenderWriting.Folded).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            reader.Refuse("outcomes", ProblemTypes.DuplicateProperty, "each word once, whatever its case", $"'{twice.First()}' is there twice.");
        }

        return words.Count == 0 ? null : words;
    }

    private static string[]? Dates(ObjectReader reader)
    {
        const string Allowed = "patterns of d, dd, M, MM, yy and yyyy, such as dd/MM/yyyy";
        if (reader.List("dates", 10, Allowed) is not { } elements)
        {
            return null;
        }

        var patterns = elements.Select(e => e.ValueKind == JsonValueKind.String ? e.GetString()! : "").ToArray();
        for (var i = 0; i < patterns.Length; i++)
        {
            if (!SenderWriting.IsDatePattern(patterns[i]))
            {
                reader.Problems.Add(ProblemTypes.InvalidValue, reader.Path("dates", i), elements[i], Allowed, $"Item {i + 1} of 'dates' is not allowed; allowed: {Allowed}.");
            }
        }

        return patterns.Length == 0 ? null : patterns;
    }

    private static string? One(ObjectReader reader, string name, params string[] words)
    {
        var text = reader.Text(name, TextRule.Label);
        if (text is null || words.Contains(text))
        {
            return text;
        }

        reader.Refuse(name, ProblemTypes.InvalidValue, "one of " + string.Join(" ", words));
        return null;
    }

    /// <summary>How the file is written, as far as both kinds of mapping say it.</summary>
    public static T Written<T>(ObjectReader reader, T mapping)
        where T : FileWriting
    {
        var written = mapping with
        {
            Dates = Dates(reader),
            Decimal = One(reader, "decimal", ".", ","),
            Delimiter = One(reader, "delimiter", ",", ";", "tab"),
            Letters = One(reader, "letters", SenderWriting.Utf8, SenderWriting.Utf16, SenderWriting.WesternEuropean),
        };
        if (written is { Decimal: ",", Delimiter: null or "," })
        {
            reader.Refuse("decimal", ProblemTypes.InvalidValue, "a comma only where another sign stands between the cells");
        }

        return written;
    }

    private static bool IsProperty(string name) => SenderMapping.Properties.Contains(name);

    /// <summary>The texts of a nested object, name by name.</summary>
    public static Dictionary<string, string> Texts(
        ObjectReader reader, string name, bool required, Func<string, bool> key, string allowedKey, Func<string, bool> value, string allowedValue)
    {
        var texts = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (word, element) in reader.Object(name, required)?.Properties(MostWords) ?? [])
        {
            var text = element.ValueKind == JsonValueKind.String ? element.GetString()! : "";
            if (!key(word))
            {
                Refuse(reader, name, word, element, ProblemTypes.UnknownProperty, allowedKey);
            }
            else if (!value(text))
            {
                Refuse(reader, name, word, element, ProblemTypes.InvalidValue, allowedValue);
            }
            else
            {
                texts[word] = text;
            }
        }

        return texts;
    }

    private static void Refuse(ObjectReader reader, string name, string word, JsonElement value, ProblemType type, string allowed)
    {
        var escaped = word.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);
        reader.Problems.Add(type, $"{reader.Path(name)}/{escaped}", value, allowed, $"'{word}' in '{name}' is not allowed; allowed: {allowed}.");
    }
}
