using System.Globalization;
using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Contract;

/// <summary>A parameter of an operation, as documented.</summary>
/// <param name="Name">Its name.</param>
/// <param name="In"><c>path</c>, <c>query</c> or <c>header</c>.</param>
/// <param name="Schema">Its schema.</param>
/// <param name="Example">Its example.</param>
internal sealed record ContractParameter(string Name, string In, JsonNode Schema, string Example);

/// <summary>One documented operation.</summary>
/// <param name="Id">Its operation id.</param>
/// <param name="Method">Its method.</param>
/// <param name="Path">Its path with the varying parts in braces.</param>
/// <param name="Parameters">All it takes.</param>
/// <param name="Bodies">Schema and example of the body by media type; empty = it takes none.</param>
/// <param name="Answers">By status, the schemas by media type; a status without any has no body.</param>
internal sealed record ContractOperation(
    string Id,
    string Method,
    string Path,
    IReadOnlyList<ContractParameter> Parameters,
    IReadOnlyDictionary<string, (JsonNode Schema, JsonNode Example)> Bodies,
    IReadOnlyDictionary<int, IReadOnlyDictionary<string, JsonNode>> Answers)
{
    /// <summary>What it is about: the part of the path that follows the location, or the first.</summary>
    public string Noun => Path.Split("{id}/") is [_, var rest] ? rest.Split('/')[0] : Path.Split('/')[1];
}

/// <summary>The served API document, taken apart.</summary>
internal sealed class ContractDocument
{
    private const string Local = "#/components/schemas/";

    private readonly JsonObject _schemas;

    public ContractDocument(string text)
    {
        Root = JsonNode.Parse(text)!;
        _schemas = Root["components"]!["schemas"]!.AsObject();
        Operations = [.. Root["paths"]!.AsObject().SelectMany(path => path.Value!.AsObject().Select(o => Operation(path.Key, o.Key, o.Value!)))];
    }

    public JsonNode Root { get; }

    public IReadOnlyList<ContractOperation> Operations { get; }

    /// <summary>Every named schema.</summary>
    public JsonObject Schemas => _schemas;

    /// <summary>The schema itself where it is only named, or named with more beside it.</summary>
    public JsonNode Resolve(JsonNode schema)
    {
        var named = schema["$ref"] ?? (schema["allOf"] is JsonArray { Count: 1 } all ? all[0]!["$ref"] : null);
        return named is null ? schema : Resolve(_schemas[((string)named!)[Local.Length..]]!);
    }

    private static ContractOperation Operation(string path, string method, JsonNode operation) => new(
        (string)operation["operationId"]!,
        method.ToUpperInvariant(),
        path,
        [.. (operation["parameters"] as JsonArray ?? []).Select(p => new ContractParameter(
            (string)p!["name"]!, (string)p["in"]!, p["schema"]!, p["example"]?.ToString() ?? ""))],
        (operation["requestBody"]?["content"] as JsonObject ?? []).ToDictionary(c => c.Key, c => (c.Value!["schema"]!, c.Value["example"]!)),
        operation["responses"]!.AsObject().ToDictionary(
            r => int.Parse(r.Key, CultureInfo.InvariantCulture),
            r => (IReadOnlyDictionary<string, JsonNode>)(r.Value!["content"] as JsonObject ?? []).ToDictionary(c => c.Key, c => c.Value!["schema"]!)));
}
