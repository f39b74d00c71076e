using System.Net.Http.Headers;
using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Contract;

/// <summary>What the service has answered so far and may be asked about again: ids, cursors, tags.</summary>
internal sealed class KnownValues
{
    private const int Most = 400;

    // Under which name of a parameter an answered property can be sent.
    private static readonly Dictionary<string, string> Names = new()
    {
        ["factId"] = "factId",
        ["heldId"] = "heldId",
        ["round"] = "round",
        ["tube"] = "tube",
        ["animal"] = "animal",
        ["sourceId"] = "sourceId",
        ["link"] = "link",
        ["next"] = "after",
        ["pen"] = "pen",
    };

    private readonly Dictionary<string, List<string>> _known = [];
    private string _noun = "";

    public void Add(string name, string value)
    {
        var list = _known.TryGetValue(name, out var there) ? there : _known[name] = [];
        if (list.Count < Most && !list.Contains(value))
        {
            list.Add(value);
        }
    }

    public string? Any(string name, Random random) => _known.TryGetValue(name, out var list) ? list[random.Next(list.Count)] : null;

    /// <summary>Keeps what an answer names.</summary>
    /// <param name="noun">What the address was about.</param>
    /// <param name="json">The answer.</param>
    /// <param name="headers">Its headers.</param>
    public void Learn(string noun, JsonNode? json, HttpResponseHeaders headers)
    {
        _noun = noun;
        if (headers.ETag is { } tag)
        {
            Add("If-None-Match", tag.ToString());
        }

        Learn(json);
    }

    private void Learn(JsonNode? json)
    {
        if (json is JsonArray items)
        {
            foreach (var item in items)
            {
                Learn(item);
            }
        }

        if (json is not JsonObject named)
        {
            return;
        }

        foreach (var (name, value) in named)
        {
            if (value is JsonValue && Names.TryGetValue(name, out var parameter))
            {
                Add(parameter, value.ToString());
            }

            if (name == "factId" && value is JsonValue)
            {
                Add($"{_noun}/id", value.ToString());
            }

            // With a scheme beside it, it names an animal or a place.
            if (name == "id" && value is JsonValue && !named.ContainsKey("scheme") && value.ToString() is { } id)
            {
                Add(id.StartsWith("f_", StringComparison.Ordinal) ? "factId" : id.StartsWith("h_", StringComparison.Ordinal) ? "heldId" : "link", id);
                Add($"{_noun}/id", id);
            }

            if (name == "next" && Uri.TryCreate(value?.ToString(), UriKind.Absolute, out var next) && next.Query.Split("cursor=") is [_, var cursor])
            {
                Add("cursor", Uri.UnescapeDataString(cursor.Split('&')[0]));
            }

            Learn(value);
        }
    }
}
