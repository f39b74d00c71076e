using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace ReproLink.Api.Tests.Contract;

/// <summary>Judges JSON by the document's schemas (OpenAPI 3.0 as the document writes it is JSON Schema, named elsewhere).</summary>
internal sealed class ContractSchemas
{
    private const string Base = "https://contract.invalid/document";

    private static readonly EvaluationOptions Quick = new() { OutputFormat = OutputFormat.Flag, RequireFormatValidation = true };
    private static readonly EvaluationOptions Explained = new() { OutputFormat = OutputFormat.List, RequireFormatValidation = true };

    private readonly BuildOptions _build = new() { Dialect = Dialect.Draft202012, SchemaRegistry = new SchemaRegistry() };
    private readonly Dictionary<string, JsonSchema> _made = [];

    public ContractSchemas(ContractDocument document)
    {
        var all = JsonSchema.FromText(Moved(new JsonObject { ["$defs"] = document.Schemas.DeepClone() }, ""), _build, new Uri(Base));
        _build.SchemaRegistry!.Fetch = (_, _) => all;
    }

    /// <summary>What is wrong with a text; null when nothing is.</summary>
    public string? Fault(JsonNode schema, string json)
    {
        using var parsed = JsonDocument.Parse(json);
        if (parsed.RootElement.ValueKind is JsonValueKind.Object or JsonValueKind.Array && NullAt(parsed.RootElement, "") is { } at)
        {
            return $"null at {at}";
        }

        var judge = Of(schema);
        if (judge.Evaluate(parsed.RootElement, Quick).IsValid)
        {
            return null;
        }

        var details = judge.Evaluate(parsed.RootElement, Explained).Details ?? [];
        return string.Join("; ", details.Where(d => d.Errors is not null).SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Key} {e.Value}")).DefaultIfEmpty("not valid").Take(5));
    }

    private JsonSchema Of(JsonNode schema)
    {
        var text = Moved(schema, Base);
        if (!_made.TryGetValue(text, out var made))
        {
            _made[text] = made = JsonSchema.FromText(text, _build, new Uri($"{Base}/{_made.Count}"));
        }

        return made;
    }

    private static string Moved(JsonNode schema, string to) => schema.ToJsonString().Replace("#/components/schemas/", to + "#/$defs/", StringComparison.Ordinal);

    private static string? NullAt(JsonElement element, string path) => element.ValueKind switch
    {
        JsonValueKind.Null => path,
        // A refusal and a preview give back what was sent, as it was sent.
        JsonValueKind.Object => element.EnumerateObject().Where(p => p.Name is not ("value" or "read")).Select(p => NullAt(p.Value, $"{path}/{p.Name}")).FirstOrDefault(at => at is not null),
        JsonValueKind.Array => element.EnumerateArray().Select((v, i) => NullAt(v, $"{path}/{i}")).FirstOrDefault(at => at is not null),
        _ => null,
    };
}
