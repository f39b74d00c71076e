using System.Collections.Frozen;
using System.Globalization;
using System.Text.Json;

namespace ReproLink.Web.Words;

/// <summary>
/// The sentences of one language, by key. They stand in <c>Words/Texts/CODE/*.json</c>: a key is a text, or an object with a text
/// for each plural form (<c>one</c>, <c>other</c>). What a language lacks is said in English.
/// </summary>
public sealed class Language
{
    /// <summary>The language every sentence is written in first.</summary>
    public static readonly Language English = new("en", null);

    /// <summary>Every language there is, English first.</summary>
    public static readonly IReadOnlyList<Language> All = [English, new("de", English)];

    private readonly FrozenDictionary<string, string> _texts;
    private readonly Language? _else;

    private Language(string code, Language? otherwise)
    {
        Code = code;
        _else = otherwise;
        _texts = Read(code).ToFrozenDictionary(StringComparer.Ordinal);
        IsWhole = otherwise is null || otherwise.Keys.All(_texts.ContainsKey);
    }

    /// <summary>Its code as pages and browsers write it, e.g. <c>de</c>.</summary>
    public string Code { get; }

    /// <summary>Whether it has every sentence; one that has not serves for dates only.</summary>
    public bool IsWhole { get; }

    /// <summary>Its keys; one for each plural form, e.g. <c>animals.one</c>.</summary>
    public IReadOnlyCollection<string> Keys => _texts.Keys;

    /// <summary>The language of a code; null = there is none.</summary>
    public static Language? Find(string code) => All.FirstOrDefault(l => l.Code.Equals(code, StringComparison.OrdinalIgnoreCase));

    /// <summary>The text of a key.</summary>
    /// <exception cref="KeyNotFoundException">English has no such key: a sentence was not written.</exception>
    public string Text(string key) =>
        _texts.TryGetValue(key, out var text) ? text
        : _else is not null ? _else.Text(key)
        : throw new KeyNotFoundException($"There is no text '{key}' in Words/Texts/{Code}.");

    /// <summary>The text of a key for a number of things.</summary>
    // English and German tell one from any other number; a language with more forms brings its own rule here.
    public string Text(string key, int count) => Text(count == 1 ? key + ".one" : key + ".other");

    private static IEnumerable<KeyValuePair<string, string>> Read(string code)
    {
        var assembly = typeof(Language).Assembly;
        foreach (var name in assembly.GetManifestResourceNames().Where(n => n.StartsWith($"texts/{code}/", StringComparison.Ordinal)))
        {
            using var stream = assembly.GetManifestResourceStream(name)!;
            using var document = JsonDocument.Parse(stream);
            foreach (var property in document.RootElement.EnumerateObject())
            {
                if (property.Value.ValueKind == JsonValueKind.String)
                {
                    yield return new(property.Name, property.Value.GetString()!);
                    continue;
                }

                foreach (var form in property.Value.EnumerateObject())
                {
                    yield return new($"{property.Name}.{form.Name}", form.Value.GetString()!);
                }
            }
        }
    }

    /// <inheritdoc/>
    public override string ToString() => Code;
}

/// <summary>Sentences in the language of whoever reads.</summary>
public static class Text
{
    /// <summary>The sentence of a key.</summary>
    public static string T(string key) => Reader.Current.Sentences.Text(key);

    /// <summary>The sentence of a key with values in its places.</summary>
    public static string T(string key, params ReadOnlySpan<object?> values) =>
        string.Format(CultureInfo.InvariantCulture, T(key), values);

    /// <summary>A name of a day or month, or how a date is put together, in the language of her dates.</summary>
    public static string OfDates(string key) => Reader.Current.Language.Text(key);

    /// <summary>A number of things, e.g. <c>3 animals</c>; the number is place 0, the values follow.</summary>
    public static string Number(string key, int count, params ReadOnlySpan<object?> values) =>
        string.Format(CultureInfo.InvariantCulture, Reader.Current.Sentences.Text(key, count), [count, .. values]);
}
