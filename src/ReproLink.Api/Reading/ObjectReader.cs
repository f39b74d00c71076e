using System.Text.Json;
using NodaTime;
using ReproLink.Api.Problems;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Reading;

/// <summary>
/// Takes one JSON object apart, property by property, and collects everything that is wrong with it. What nobody asked
/// for is unknown and refused by name.
/// </summary>
internal sealed partial class ObjectReader
{
    private readonly List<Entry> _entries = [];
    private readonly List<string> _known = [];
    private readonly string _path;
    private readonly bool _tolerant;

    /// <param name="element">The object.</param>
    /// <param name="problems">Gets what is wrong.</param>
    /// <param name="path">Where it stands in what was sent.</param>
    /// <param name="tolerant">Whether null reads as absent, as senders of the exchange standard write it.</param>
    public ObjectReader(JsonElement element, FieldProblems problems, string path = "", bool tolerant = false)
    {
        Problems = problems;
        _path = path;
        _tolerant = tolerant;
        if (element.ValueKind != JsonValueKind.Object)
        {
            IsObject = false;
            problems.Add(ProblemTypes.WrongType, path, element, "an object", $"{Quoted(path)} is not an object.");
            return;
        }

        foreach (var property in element.EnumerateObject())
        {
            AddEntry(property);
        }
    }

    /// <summary>Whether it is an object at all.</summary>
    public bool IsObject { get; } = true;

    public FieldProblems Problems { get; }

    /// <summary>Whether the property was sent, null included.</summary>
    public bool Has(string name) => Find(name) >= 0;

    /// <summary>Says that something about a property is not allowed.</summary>
    public void Refuse(string name, ProblemType type, string allowed, string? detail = null)
    {
        var at = Find(name);
        JsonElement? value = at < 0 ? null : _entries[at].Value;
        Problems.Add(type, Path(name), value, allowed, detail ?? $"{Quoted(name)} is {Shown(value)}; allowed: {allowed}.");
    }

    public string? Text(string name, TextRule rule, bool required = false)
    {
        if (TextOf(name, rule.Allowed, required) is not { } text)
        {
            return null;
        }

        if (rule.Accepts(text))
        {
            return text;
        }

        Refuse(name, ProblemTypes.InvalidValue, rule.Allowed);
        return null;
    }

    public T? Word<T>(string name, Vocabulary<T> words, bool required = false)
        where T : struct
    {
        if (TextOf(name, words.Allowed, required) is not { } text)
        {
            return null;
        }

        if (words.TryRead(text, out var meaning))
        {
            return meaning;
        }

        Refuse(name, ProblemTypes.InvalidValue, words.Allowed);
        return null;
    }

    public Day? Day(string name, bool required = false)
    {
        if (TextOf(name, Dates.AllowedDay, required) is not { } text)
        {
            return null;
        }

        if (Dates.TryDay(text, out var day))
        {
            return day;
        }

        Refuse(name, ProblemTypes.InvalidValue, Dates.AllowedDay);
        return null;
    }

    public LocalTime? Time(string name)
    {
        if (TextOf(name, Dates.AllowedTime, false) is not { } text)
        {
            return null;
        }

        if (Dates.TryTime(text, out var time))
        {
            return time;
        }

        Refuse(name, ProblemTypes.InvalidValue, Dates.AllowedTime);
        return null;
    }

    public Instant? Instant(string name, bool required = false)
    {
        if (TextOf(name, Dates.AllowedInstant, required) is not { } text)
        {
            return null;
        }

        if (Dates.TryInstant(text, out var instant))
        {
            return instant;
        }

        Refuse(name, ProblemTypes.InvalidValue, Dates.AllowedInstant);
        return null;
    }

    private static string Quoted(string name) => name.Length == 0 ? "The item" : $"'{name}'";

    // A sentence quotes short values only; the value itself stands beside it.
    private static string Shown(JsonElement? value) => value switch
    {
        null => "missing",
        { ValueKind: JsonValueKind.Object } => "an object",
        { ValueKind: JsonValueKind.Array } => "a list",
        { } sent => sent.GetRawText() is { Length: <= 60 } raw ? raw : "a long text",
    };

    private struct Entry
    {
        public JsonProperty Property;
        public bool Taken;

        public readonly JsonElement Value => Property.Value;
    }
}
