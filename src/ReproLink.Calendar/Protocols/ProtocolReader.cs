using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Protocols;

/// <summary>
/// Reads one protocol definition, strictly: a misspelt property would otherwise fall back to a default,
/// and a default is not what was published.
/// </summary>
public static class ProtocolReader
{
    private const int Schema = 1;

    private static readonly JsonDocumentOptions Strict = new() { AllowDuplicateProperties = false };

    private static readonly ImmutableArray<string> ProtocolProperties =
    [
        "schema", "id", "name", "animalClass", "use", "startSession", "start", "steps",
        "source", "doi", "evidence", "evidenceDetail", "notes",
    ];

    private static readonly ImmutableArray<string> StepProperties =
    [
        "id", "kind", "anchor", "days", "hours", "gated", "earlyHours", "lateHours", "ifLate", "optional", "needsCorpusLuteum",
    ];

    private static readonly ImmutableArray<string> StartProperties = ["rule", "day"];

    /// <summary>Reads and checks a definition.</summary>
    /// <param name="fileName">Its file name, which must be the protocol's id and <c>.json</c>.</param>
    /// <param name="json">Its text.</param>
    /// <exception cref="ProtocolDefinitionException">The definition cannot be used.</exception>
    public static Protocol Read(string fileName, string json)
    {
        string? id = null;
        try
        {
            using var document = JsonDocument.Parse(json, Strict);
            var root = new Node("", document.RootElement, ProtocolProperties);
            id = root.Text("id");
            var protocol = ReadProtocol(root, id);
            var problems = ProtocolRules.Problems(fileName, protocol).ToList();
            return problems.Count == 0 ? protocol : throw new ProtocolDefinitionException(fileName, id, string.Join("; ", problems));
        }
        catch (JsonException e)
        {
            throw new ProtocolDefinitionException(fileName, id, $"not valid JSON: {e.Message}", e);
        }
        catch (FormatException e)
        {
            throw new ProtocolDefinitionException(fileName, id, e.Message, e);
        }
    }

    private static Protocol ReadProtocol(Node root, string id)
    {
        if (root.Number("schema") is var schema && schema != Schema)
            throw new FormatException($"schema is {schema?.ToString() ?? "missing"}, allowed is {Schema}");
        var steps = root.Items("steps").Select((item, index) => ReadStep(new Node($"step {index + 1}: ", item, StepProperties)));
        return new Protocol(id, root.Text("name"), root.Word<AnimalClass>("animalClass"), root.Word<ProtocolUse>("use"), [.. steps])
        {
            StartSession = root.WordOr("startSession", Session.Morning),
            Start = root.Child("start") is { } start ? ReadStart(new Node("start: ", start, StartProperties)) : null,
            Source = root.Text("source"),
            Doi = root.OptionalText("doi"),
            Evidence = root.Word<Evidence>("evidence"),
            EvidenceDetail = root.OptionalText("evidenceDetail"),
            Notes = root.OptionalText("notes"),
        };
    }

    private static ResynchronisationStart ReadStart(Node node) => new(node.Word<StartRule>("rule"), node.Number("day"));

    private static ProtocolStep ReadStep(Node node) => new(node.Text("id"), node.Word<StepKind>("kind"))
    {
        Anchor = node.OptionalText("anchor"),
        Days = node.Number("days"),
        Hours = node.Number("hours"),
        Gated = node.Flag("gated"),
        EarlyHours = node.Number("earlyHours") ?? throw node.Missing("earlyHours"),
        LateHours = node.Number("lateHours") ?? throw node.Missing("lateHours"),
        IfLate = node.WordOr("ifLate", IfLate.Lapse),
        Optional = node.Flag("optional"),
        NeedsCorpusLuteum = node.Flag("needsCorpusLuteum"),
    };

    /// <summary>An object of the definition, with only the properties it may have.</summary>
    private readonly struct Node
    {
        private readonly string _where;
        private readonly JsonElement _element;

        public Node(string where, JsonElement element, ImmutableArray<string> known)
        {
            _where = where;
            _element = element;
            if (element.ValueKind != JsonValueKind.Object) throw new FormatException($"{where}must be an object");
            foreach (var property in element.EnumerateObject())
            {
                if (!known.Contains(property.Name, StringComparer.Ordinal))
                    throw new FormatException($"{where}unknown property '{property.Name}', allowed are {string.Join(", ", known)}");
            }
        }

        public JsonElement? Child(string name) => _element.TryGetProperty(name, out var value) ? value : null;

        public FormatException Missing(string name) => new($"{_where}{name} is missing");

        public string Text(string name) => OptionalText(name) ?? throw Missing(name);

        public string? OptionalText(string name)
        {
            if (Child(name) is not { } value) return null;
            return value.ValueKind == JsonValueKind.String && value.GetString() is { } text && !string.IsNullOrWhiteSpace(text)
                ? text
                : throw new FormatException($"{_where}{name} must be a text that is not empty");
        }

        public int? Number(string name)
        {
            if (Child(name) is not { } value) return null;
            return value.ValueKind == JsonValueKind.Number && value.TryGetInt32(out var number)
                ? number
                : throw new FormatException($"{_where}{name} must be a whole number");
        }

        public bool Flag(string name) => Child(name)?.ValueKind switch
        {
            null or JsonValueKind.False => false,
            JsonValueKind.True => true,
            _ => throw new FormatException($"{_where}{name} must be true or false"),
        };

        public JsonElement.ArrayEnumerator Items(string name) =>
            (Child(name) ?? throw Missing(name)) is { ValueKind: JsonValueKind.Array } array
                ? array.EnumerateArray()
                : throw new FormatException($"{_where}{name} must be a list");

        public T WordOr<T>(string name, T absent)
            where T : struct, Enum => Child(name) is null ? absent : Word<T>(name);

        public T Word<T>(string name)
            where T : struct, Enum
        {
            var text = Text(name);
            foreach (var value in Enum.GetValues<T>())
                if (Kebab(value.ToString()) == text) return value;
            var allowed = string.Join(", ", Enum.GetNames<T>().Select(Kebab));
            throw new FormatException($"{_where}{name} is '{text}', allowed are {allowed}");
        }

        private static string Kebab(string name)
        {
            var word = new StringBuilder();
            foreach (var letter in name)
            {
                if (char.IsUpper(letter) && word.Length > 0) word.Append('-');
                word.Append(char.ToLowerInvariant(letter));
            }

            return word.ToString();
        }
    }
}
