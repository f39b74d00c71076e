using System.Text.Json;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Reading;

/// <content>Numbers, truth values, nested objects, and the end of reading.</content>
internal sealed partial class ObjectReader
{
    public int? Integer(string name, int min, int max, bool required = false)
    {
        var allowed = $"a whole number from {min} to {max}";
        if (Take(name, JsonValueKind.Number, allowed, required) is not { } value)
        {
            return null;
        }

        if (value.TryGetInt32(out var number) && number >= min && number <= max)
        {
            return number;
        }

        Refuse(name, ProblemTypes.InvalidValue, allowed);
        return null;
    }

    public double? Number(string name, bool required = false)
    {
        const string Allowed = "a number";
        if (Take(name, JsonValueKind.Number, Allowed, required) is not { } value)
        {
            return null;
        }

        if (value.TryGetDouble(out var number) && double.IsFinite(number))
        {
            return number;
        }

        Refuse(name, ProblemTypes.InvalidValue, Allowed);
        return null;
    }

    public bool? Truth(string name) =>
        Take(name, JsonValueKind.True, "true or false", false) is { } value ? value.ValueKind == JsonValueKind.True : null;

    /// <summary>A nested object; null when it is absent or no object (which is then reported).</summary>
    public ObjectReader? Object(string name, bool required = false) =>
        Take(name, JsonValueKind.Object, "an object", required) is { } value ? new ObjectReader(value, Problems, Path(name), _tolerant) : null;

    /// <summary>A nested object as sent, for a reader of its own; null when it is absent or no object (which is then reported).</summary>
    public JsonElement? Raw(string name) => Take(name, JsonValueKind.Object, "an object", false);

    /// <summary>The elements of a list with their paths; null when it is absent or no list.</summary>
    public IReadOnlyList<JsonElement>? List(string name, int max, string allowed)
    {
        if (Take(name, JsonValueKind.Array, allowed, false) is not { } value)
        {
            return null;
        }

        if (value.GetArrayLength() <= max)
        {
            return [.. value.EnumerateArray()];
        }

        Refuse(name, ProblemTypes.InvalidValue, $"{allowed}, at most {max}");
        return null;
    }

    /// <summary>At least one word of a closed list, each once, in the order of what they mean; null when absent or refused.</summary>
    public IReadOnlyList<T>? Words<T>(string name, Vocabulary<T> words, string what)
        where T : struct
    {
        var allowed = $"a list of at least one {what}, each once: " + string.Join(", ", words.Words);
        if (List(name, words.Words.Count, allowed) is not { } elements)
        {
            return null;
        }

        var meanings = new SortedSet<T>();
        foreach (var element in elements)
        {
            if (element.ValueKind != JsonValueKind.String || !words.TryRead(element.GetString()!, out var meaning) || !meanings.Add(meaning))
            {
                Refuse(name, ProblemTypes.InvalidValue, allowed);
                return null;
            }
        }

        if (meanings.Count > 0)
        {
            return [.. meanings];
        }

        Refuse(name, ProblemTypes.InvalidValue, allowed);
        return null;
    }

    /// <summary>Every property, whatever it is called.</summary>
    public IReadOnlyList<(string Name, JsonElement Value)> Properties(int max)
    {
        if (_entries.Count > max)
        {
            Problems.Add(ProblemTypes.InvalidValue, _path, null, $"at most {max} properties", $"{Quoted(_path)} has {_entries.Count} properties; allowed: at most {max}.");
            return [];
        }

        return [.. _entries.Select(entry => (entry.Property.Name, entry.Value))];
    }

    /// <summary>The path of an element of a list.</summary>
    public string Path(string name, int index) => $"{Path(name)}/{index}";

    /// <summary>The path of a property, as a JSON pointer without its first slash.</summary>
    public string Path(string name)
    {
        var escaped = name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);
        return _path.Length == 0 ? escaped : $"{_path}/{escaped}";
    }

    /// <summary>Takes a property out of what is still to be asked for; it was judged already.</summary>
    public void Ignore(string name)
    {
        var at = Find(name);
        if (at >= 0)
        {
            _entries[at] = _entries[at] with { Taken = true };
        }
    }

    /// <summary>Refuses by name what nobody asked for.</summary>
    public void Done()
    {
        foreach (var entry in _entries)
        {
            if (!entry.Taken)
            {
                var name = entry.Property.Name;
                var allowed = "only " + string.Join(", ", _known);
                Problems.Add(ProblemTypes.UnknownProperty, Path(name), entry.Value, allowed, $"'{name}' is not known here; allowed: {allowed}.");
            }
        }
    }

    private string? TextOf(string name, string allowed, bool required) => Take(name, JsonValueKind.String, allowed, required)?.GetString();

    private JsonElement? Take(string name, JsonValueKind kind, string allowed, bool required)
    {
        _known.Add(name);
        var at = Find(name);
        if (at < 0)
        {
            if (required)
            {
                Refuse(name, ProblemTypes.MissingProperty, allowed);
            }

            return null;
        }

        var entry = _entries[at];
        _entries[at] = entry with { Taken = true };
        var sent = entry.Value.ValueKind;
        if (sent == kind || (kind == JsonValueKind.True && sent == JsonValueKind.False))
        {
            return entry.Value;
        }

        var detail = sent == JsonValueKind.Null ? $"'{name}' is null: leave the property out, or send {allowed}." : null;
        Refuse(name, ProblemTypes.WrongType, allowed, detail);
        return null;
    }

    private int Find(string name)
    {
        for (var i = 0; i < _entries.Count; i++)
        {
            if (_entries[i].Property.NameEquals(name))
            {
                return i;
            }
        }

        return -1;
    }

    private void AddEntry(JsonProperty property)
    {
        if (_tolerant && property.Value.ValueKind == JsonValueKind.Null)
        {
            return;
        }

        foreach (var entry in _entries)
        {
            if (entry.Property.NameEquals(property.Name))
            {
                Problems.Add(ProblemTypes.DuplicateProperty, Path(property.Name), property.Value, "each property once", $"'{property.Name}' is there twice.");
                return;
            }
        }

        _entries.Add(new Entry { Property = property });
    }
}
