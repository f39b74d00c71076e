using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Archives;

/// <summary>What the JSON files of the zip have in common.</summary>
internal static class ArchiveJson
{
    public static readonly TextRule Name = new(300, true);

    /// <summary>Whoever did it.</summary>
    public static readonly TextRule By = new(2000, false);

    /// <summary>A text kept as it was sent, JSON of any length.</summary>
    public static readonly TextRule Raw = new(10_000_000, false) { Lines = true };

    public static readonly Vocabulary<State> States = new(("saved", State.Saved), ("draft", State.Draft));

    public enum State
    {
        Saved = 1,
        Draft,
    }

    /// <summary>A file as JSON; null when it is none, or not UTF-8.</summary>
    public static JsonDocument? Parse(byte[] bytes) => Utf8.IsValid(bytes) ? JsonText.Parse(bytes).Document : null;

    public static long Order(ObjectReader item) => item.Integer("order", 1, int.MaxValue, required: true) ?? 0;

    /// <summary>The objects of a list that must be there, each read whole.</summary>
    public static List<T> Items<T>(ObjectReader reader, string name, int most, Func<ObjectReader, T> read)
    {
        var items = new List<T>();
        if (!reader.Has(name))
        {
            reader.Refuse(name, ProblemTypes.MissingProperty, "a list of objects");
        }

        foreach (var element in reader.List(name, most, "a list of objects") ?? [])
        {
            var item = new ObjectReader(element, reader.Problems, reader.Path(name, items.Count));
            if (item.IsObject)
            {
                items.Add(read(item));
                item.Done();
            }
        }

        return items;
    }

    public static JsonObject WithoutNulls(JsonObject json)
    {
        foreach (var name in json.Where(p => p.Value is null).Select(p => p.Key).ToArray())
        {
            json.Remove(name);
        }

        return json;
    }
}
