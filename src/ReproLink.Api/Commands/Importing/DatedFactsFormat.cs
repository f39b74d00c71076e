using System.Collections.Frozen;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Commands.Importing;

/// <summary>
/// Rows <c>herd,animal,date,fact,detail</c>: birth with a breed, insemination with a sire, calving with <c>parity-n</c>,
/// arrival and departure with a letter for the cause. A row has no id of its own: its content is its id, so the same row
/// again is a duplicate.
/// </summary>
internal static class DatedFactsFormat
{
    public static readonly CsvShape Shape = new(
        FrozenSet.Create("herd", "animal", "date", "fact", "detail"),
        FrozenSet<string>.Empty, FrozenSet<string>.Empty, FrozenSet<string>.Empty);

    private const string ParityMark = "parity-";
    private const string AllowedFacts = "birth, insemination, calving, arrival, departure";

    // The letters' meanings were recalled, not read in the data's own description; the letter itself is kept.
    private static readonly FrozenDictionary<string, string> Causes = new Dictionary<string, string>
    {
        ["B"] = "slaughter",
        ["M"] = "died",
        ["E"] = "sold for breeding",
        ["C"] = "home consumption",
        ["H"] = "lent or boarded",
    }.ToFrozenDictionary();

    public static IReadOnlyList<ImportItem> Read(IReadOnlyList<BatchItem> rows)
    {
        var births = new Dictionary<(string, string), Row>();
        foreach (var row in rows.Select(r => new Row(r)).Where(r => r.Fact == "birth"))
        {
            births.TryAdd((row.Herd, row.Animal), row);
        }

        var items = new List<ImportItem>(rows.Count);
        foreach (var row in rows.Select(r => new Row(r)))
        {
            items.AddRange(Items(row, births.GetValueOrDefault((row.Herd, row.Animal))));
        }

        return items;
    }

    private static ImportItem[] Items(Row row, Row? birth)
    {
        if (row.Item.Unreadable is not null)
        {
            return [new ImportItem(null, row.Item)];
        }

        return row.Herd.Length == 0 ? [row.Refused("herd", "", "the herd's id")] : row.Fact switch
        {
            "birth" => [Card(row, row, null)],
            "insemination" => [row.Made("insemination", ("sire", row.Detail))],
            "calving" => Calving(row, birth),
            "arrival" => [row.Made("arrival")],
            "departure" => [row.Made("departure", ("reason", Cause(row.Detail)))],
            _ => [row.Refused("fact", row.Fact, AllowedFacts)],
        };
    }

    // Parity is no property of a calving but of the card: a card of that day says it, and repeats what the birth said,
    // because the latest card counts.
    private static ImportItem[] Calving(Row row, Row? birth)
    {
        if (row.Detail.Length == 0)
        {
            return [row.Made("calving")];
        }

        return row.Detail.StartsWith(ParityMark, StringComparison.Ordinal)
            && int.TryParse(row.Detail.AsSpan(ParityMark.Length), NumberStyles.None, CultureInfo.InvariantCulture, out var parity)
            ? [row.Made("calving"), Card(row, birth, parity)]
            : [row.Refused("detail", row.Detail, ParityMark + "n with n from 1 to 30, or nothing")];
    }

    // Birth says nothing of parity: a heifer is not claimed, since calvings before the records began may be missing.
    private static ImportItem Card(Row row, Row? birth, int? parity)
    {
        var card = row.Object("animal", $"{row.Animal} {row.Date} card");
        Row.Set(card, "born", birth?.Date);
        Row.Set(card, "breed", birth?.Detail);
        if (parity is { } known)
        {
            card["parity"] = known;
        }

        return row.Of(card);
    }

    private static string Cause(string letter) =>
        Causes.TryGetValue(letter, out var meaning) ? $"{letter}: {meaning} (meaning of the letter recalled)" : letter;

    private sealed class Row(BatchItem item)
    {
        public BatchItem Item => item;

        public string Herd { get; } = Cell(item, "herd");

        public string Animal { get; } = Cell(item, "animal");

        public string Date { get; } = Cell(item, "date");

        public string Fact { get; } = Cell(item, "fact");

        public string Detail { get; } = Cell(item, "detail");

        public ImportItem Made(string kind, params ReadOnlySpan<(string Name, string Value)> more)
        {
            var fact = Object(kind, $"{Animal} {Date} {kind} {Detail}".TrimEnd());
            foreach (var (name, value) in more)
            {
                Set(fact, name, value);
            }

            return Of(fact);
        }

        public JsonObject Object(string kind, string sourceId)
        {
            var fact = new JsonObject { ["sourceId"] = sourceId, ["kind"] = kind };
            Set(fact, "animal", Animal);
            Set(fact, "date", Date);
            return fact;
        }

        public ImportItem Of(JsonObject fact) => new(Herd, item with { Element = JsonSerializer.SerializeToElement(fact) });

        public ImportItem Refused(string field, string value, string allowed) => new(Herd, item with
        {
            Unreadable = new FieldProblem(ProblemTypes.InvalidValue, field, value, allowed, $"'{field}' is \"{value}\"; allowed: {allowed}."),
        });

        public static void Set(JsonObject fact, string name, string? value)
        {
            if (!string.IsNullOrEmpty(value))
            {
                fact[name] = value;
            }
        }

        private static string Cell(BatchItem item, string name) =>
            item.Element.TryGetProperty(name, out var cell) ? cell.GetString() ?? "" : "";
    }
}
