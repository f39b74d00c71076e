using System.Text.Json;
using ReproLink.Api.Intake;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Facts;

/// <summary>A mapping of herd files as sent, each part judged by name.</summary>
internal static class FactMappingReader
{
    private const int MostFacts = 50;
    private const int MostWords = 200;
    private const string AllowedShared = "animal, date, time or sourceId";

    public static FactMappingInput Read(ObjectReader reader)
    {
        var columns = MappingReader.Texts(
            reader, "columns", required: true, FactProperties.Shared.Contains, AllowedShared, TextRule.Label.Accepts, TextRule.Label.Allowed);
        if (reader.Has("columns") && !columns.ContainsKey("animal"))
        {
            reader.Refuse("columns", ProblemTypes.MissingProperty, "a column for 'animal'");
        }

        var eventColumn = reader.Text("eventColumn", TextRule.Label);
        var facts = Facts(reader, eventColumn is not null);
        if (columns.ContainsKey("sourceId") && eventColumn is null && facts.Count > 1)
        {
            reader.Refuse("columns", ProblemTypes.InvalidValue, "a column for 'sourceId' only where a line gives one fact; else inside 'facts'",
                "The column for 'sourceId' names one fact, and a line may give several. Name it inside 'facts', or leave it out: what a line says is then its id.");
        }

        var mapping = MappingReader.Written(reader, new FactMappingInput
        {
            Columns = columns,
            EventColumn = eventColumn,
            Facts = facts,
            LeaveOut = Words(reader, "leaveOut"),
            Empty = Words(reader, "empty"),
        });
        RefuseSameWords(reader, mapping);
        reader.Done();
        return mapping;
    }

    private static List<FactRule> Facts(ObjectReader reader, bool byEvent)
    {
        var rules = new List<FactRule>();
        var allowed = $"a list of 1 to {MostFacts} objects with kind";
        var elements = reader.List("facts", MostFacts, allowed);
        if (elements is null ? !reader.Has("facts") : elements.Count == 0)
        {
            reader.Refuse("facts", ProblemTypes.MissingProperty, allowed);
        }

        foreach (var element in elements ?? [])
        {
            var rule = new ObjectReader(element, reader.Problems, reader.Path("facts", rules.Count));
            rules.Add(rule.IsObject ? Rule(rule, byEvent) : new FactRule { Kind = "" });
        }

        return rules;
    }

    private static FactRule Rule(ObjectReader reader, bool byEvent)
    {
        var kind = reader.Text("kind", TextRule.Label, required: true) ?? "";
        if (reader.Has("kind") && !FactProperties.Kinds.Contains(kind))
        {
            reader.Refuse("kind", ProblemTypes.InvalidValue, "one of " + string.Join(", ", FactProperties.Kinds));
            return new FactRule { Kind = kind };
        }

        var events = Words(reader, "events");
        if ((events is { Length: > 0 }) != byEvent)
        {
            reader.Refuse("events", byEvent ? ProblemTypes.MissingProperty : ProblemTypes.InvalidValue,
                byEvent ? "the words of the event column that mean it" : "only with an 'eventColumn'");
        }

        var columns = MappingReader.Texts(reader, "columns", required: false,
            name => FactProperties.Has(kind, name), FactProperties.Allowed(kind), TextRule.Label.Accepts, TextRule.Label.Allowed);
        var always = MappingReader.Texts(reader, "fixed", required: false,
            name => FactProperties.Has(kind, name) && name is not ("animal" or "sourceId") && !columns.ContainsKey(name), FactProperties.Allowed(kind) + ", where it is no column",
            TextRule.Label.Accepts, TextRule.Label.Allowed);
        foreach (var (name, text) in always.Where(f => !FactProperties.Accepts(f.Key, f.Value)))
        {
            reader.Problems.Add(ProblemTypes.InvalidValue, reader.Path("fixed") + "/" + name, text, FactProperties.Words(name)!, $"'{name}' in 'fixed' is \"{text}\"; allowed: {FactProperties.Words(name)}.");
        }

        var words = PropertyWords(reader, kind);
        reader.Done();
        return new FactRule
        {
            Kind = kind,
            Events = events,
            Columns = columns.Count == 0 ? null : columns,
            Fixed = always.Count == 0 ? null : always,
            Words = words,
        };
    }

    private static Dictionary<string, IReadOnlyDictionary<string, string>>? PropertyWords(ObjectReader reader, string kind)
    {
        if (reader.Object("words") is not { } words)
        {
            return null;
        }

        var read = new Dictionary<string, IReadOnlyDictionary<string, string>>(StringComparer.Ordinal);
        foreach (var (property, _) in words.Properties(MostWords))
        {
            if (!FactProperties.Has(kind, property) || property is "animal" or "sourceId" or "date" or "time")
            {
                words.Refuse(property, ProblemTypes.UnknownProperty, "a property of the kind that is a word, " + FactProperties.Allowed(kind));
                words.Ignore(property);
                continue;
            }

            read[property] = MappingReader.Texts(words, property, required: false, TextRule.Label.Accepts, TextRule.Label.Allowed,
                text => FactProperties.Accepts(property, text), FactProperties.Words(property) ?? TextRule.Label.Allowed);
        }

        words.Done();
        return read.Count == 0 ? null : read;
    }

    private static string[]? Words(ObjectReader reader, string name)
    {
        const string Allowed = "a list of words";
        if (reader.List(name, MostWords, Allowed) is not { } elements)
        {
            return null;
        }

        for (var i = 0; i < elements.Count; i++)
        {
            if (elements[i].ValueKind != JsonValueKind.String || !TextRule.Label.Accepts(elements[i].GetString()!))
            {
                reader.Problems.Add(ProblemTypes.InvalidValue, reader.Path(name, i), elements[i], TextRule.Label.Allowed, $"Item {i + 1} of '{name}' is not allowed; allowed: {TextRule.Label.Allowed}.");
            }
        }

        return [.. elements.Where(e => e.ValueKind == JsonValueKind.String).Select(e => e.GetString()!)];
    }

    // A word left out and read at once would be read or not by chance.
    private static void RefuseSameWords(ObjectReader reader, FactMappingInput mapping)
    {
        var read = mapping.Facts.SelectMany(f => f.Events ?? []).Select(SenderWriting.Folded).ToHashSet();
        if ((mapping.LeaveOut ?? []).FirstOrDefault(w => read.Contains(SenderWriting.Folded(w))) is { } both)
        {
            reader.Refuse("leaveOut", ProblemTypes.InvalidValue, "words that no fact is read from", $"'{both}' is left out and read.");
        }

        if (mapping.LeaveOut is not null && mapping.EventColumn is null)
        {
            reader.Refuse("leaveOut", ProblemTypes.InvalidValue, "only with an 'eventColumn'");
        }
    }
}
