using System.Runtime.CompilerServices;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;

namespace ReproLink.Api.Tests.Exchange;

/// <summary>
/// The standard's schemas. What goes out must be valid by them and have no property they do not know, save our one extension;
/// what they leave open (no nulls, UTC instants, exact names) is asserted in plain code.
/// </summary>
public static class AdeSchemas
{
    public const string Extension = "org.reprolink";
    private const string Base = "https://ade.invalid/";

    private static readonly BuildOptions Build = MakeOptions();
    private static readonly EvaluationOptions Options = new() { OutputFormat = OutputFormat.List, RequireFormatValidation = true };
    private static readonly Dictionary<string, JsonSchema> Made = [];

    // Nested objects must not have unknown properties either.
    private static readonly Dictionary<string, string> Nested = new()
    {
        ["meta"] = "types/icarMetaDataType",
        ["animal"] = "types/icarAnimalIdentifierType",
        ["identifier"] = "types/icarAnimalIdentifierType",
        ["location"] = "types/icarLocationIdentifierType",
        ["straw"] = "resources/icarReproSemenStrawResource",
    };

    /// <summary>A page of messages.</summary>
    public static void Page(JsonNode page, string collection, string resource)
    {
        Valid(page, $"collections/{collection}");
        var member = Assert.IsType<JsonArray>(page["member"]);
        Assert.Equal([], page.AsObject().Select(p => p.Key).Except(["view", "member"]));
        Assert.Equal([], page["view"]!.AsObject().Select(p => p.Key).Except(["pageSize", "next"]));
        NoNulls(page, "");
        foreach (var message in member)
        {
            Message(message!, resource);
        }
    }

    /// <summary>One message.</summary>
    public static void Message(JsonNode message, string resource)
    {
        Assert.Equal(resource, (string?)message["resourceType"]);
        Valid(message, $"resources/{resource}");
        var bare = message.DeepClone().AsObject();
        bare.Remove(Extension);
        Valid(bare, $"resources/{resource}", closed: true);
        foreach (var (name, type) in Nested)
        {
            if (bare[name] is { } nested)
            {
                Valid(nested, type, closed: true);
            }
        }

        NoNulls(message, "");
        Instants(bare, "");
        Assert.False(string.IsNullOrEmpty((string?)message["meta"]?["source"]), message.ToJsonString());
        Assert.False(string.IsNullOrEmpty((string?)message["meta"]?["sourceId"]), message.ToJsonString());
        Assert.NotNull(message["meta"]?["modified"]);
    }

    /// <summary>A refusal.</summary>
    public static void Errors(JsonNode? body, int status)
    {
        Assert.NotNull(body);
        Valid(body, "collections/icarErrorCollection");
        var errors = Assert.IsType<JsonArray>(body["errors"]);
        Assert.NotEmpty(errors);
        Assert.All(errors, error =>
        {
            Valid(error!, "resources/icarResponseMessageResource", closed: true);
            Assert.Equal(status, error!["status"]!.GetValue<int>());
            Assert.False(string.IsNullOrEmpty((string?)error["detail"]));
        });
    }

    /// <summary>Answers to the items of a batch.</summary>
    public static JsonArray Results(JsonNode? body)
    {
        var results = Assert.IsType<JsonArray>(body);
        Assert.All(results, result => Valid(result!, "resources/icarBatchResult", closed: true));
        NoNulls(results, "");
        return results;
    }

    public static void Valid(JsonNode node, string file, bool closed = false)
    {
        var results = Of(file, closed).Evaluate(JsonSerializer.SerializeToElement(node), Options);
        var errors = (results.Details ?? []).Where(d => d.Errors is not null).SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Key} {e.Value}"));
        Assert.True(results.IsValid, $"{file}: {string.Join("; ", errors)}\n{node.ToJsonString()}");
    }

    private static void NoNulls(JsonNode? node, string path)
    {
        Assert.True(node is not null, $"null at {path}");
        foreach (var (key, value) in Children(node))
        {
            NoNulls(value, $"{path}/{key}");
        }
    }

    private static void Instants(JsonNode? node, string path)
    {
        if (node is JsonValue value && value.TryGetValue<string>(out var text) && (path.EndsWith("DateTime", StringComparison.Ordinal) || path.EndsWith("Date", StringComparison.Ordinal)
            || path.EndsWith("modified", StringComparison.Ordinal) || path.EndsWith("created", StringComparison.Ordinal)))
        {
            Assert.EndsWith("Z", text, StringComparison.Ordinal);
        }

        foreach (var (key, child) in Children(node))
        {
            Instants(child, $"{path}/{key}");
        }
    }

    private static IEnumerable<(string Key, JsonNode? Value)> Children(JsonNode? node) => node switch
    {
        JsonObject o => o.Select(p => (p.Key, p.Value)),
        JsonArray a => a.Select((v, i) => ($"{i}", v)),
        _ => [],
    };

    private static JsonSchema Of(string file, bool closed)
    {
        lock (Made)
        {
            var name = $"{file}{(closed ? "#closed" : "")}";
            if (!Made.TryGetValue(name, out var schema))
            {
                var uri = new Uri($"{Base}wrapped/{Made.Count}");
                var more = closed ? ""","unevaluatedProperties":false""" : "";
                Made[name] = schema = JsonSchema.FromText($$"""{"$ref":"{{Base}}{{file}}.json"{{more}}}""", Build, uri);
            }

            return schema;
        }
    }

    private static BuildOptions MakeOptions()
    {
        var options = new BuildOptions { Dialect = Dialect.Draft202012, SchemaRegistry = new SchemaRegistry() };
        options.SchemaRegistry.Fetch = (uri, _) => JsonSchema.FromText(File.ReadAllText(PathOf(uri)), options, uri);
        return options;
    }

    private static string PathOf(Uri uri, [CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "Schemas", uri.AbsolutePath.TrimStart('/'));
}
