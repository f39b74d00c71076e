using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Contract;

/// <summary>Makes bodies from an operation's schema and example, and breaks them.</summary>
internal sealed class BodyMaker(ContractDocument document, KnownValues known, Random random)
{
    private static readonly DateOnly Today = new(2026, 10, 20);
    private int _made;

    /// <summary>A body by the document, as good as a schema can say.</summary>
    public JsonNode? Good(JsonNode schema, JsonNode example)
    {
        var body = random.Next(3) == 0 ? Of(schema, 0) : example.DeepClone();
        Walk(body, Freshen);
        return body;
    }

    /// <summary>The same body with one to three things changed.</summary>
    public JsonNode? Bad(JsonNode? body)
    {
        var root = new JsonArray(body);
        for (var changes = random.Next(1, 4); changes > 0; changes--)
        {
            var places = new List<(JsonNode Parent, object Key)>();
            Collect(root, places);
            Change(places[random.Next(places.Count)]);
        }

        body = root.Count > 0 ? root[0] : null;
        root.Clear();
        return body;
    }

    /// <summary>A CSV by the example, perhaps broken.</summary>
    public byte[] Csv(string example, bool bad)
    {
        var text = example.Replace("a-1", $"n-{++_made}", StringComparison.Ordinal);
        if (bad)
        {
            var cells = text.Split(',');
            cells[random.Next(cells.Length)] = random.Next(2) == 0 ? $"\"{Oddities.Text(random)}" : Oddities.Text(random);
            text = string.Join(random.Next(10) == 0 ? ";" : ",", cells);
        }

        return Encoding.UTF8.GetBytes(text);
    }

    private JsonNode? Of(JsonNode named, int depth)
    {
        var schema = document.Resolve(named);
        if (schema["enum"] is JsonArray words)
        {
            return words[random.Next(words.Count)]!.DeepClone();
        }

        switch ((string?)schema["type"])
        {
            case "object":
                var required = (schema["required"] as JsonArray ?? []).Select(r => (string)r!).ToHashSet();
                return new JsonObject((schema["properties"] as JsonObject ?? [])
                    .Where(p => required.Contains(p.Key) || (depth < 4 && random.Next(2) == 0))
                    .Select(p => KeyValuePair.Create(p.Key, Of(p.Value!, depth + 1))));
            case "array":
                return new JsonArray([.. Enumerable.Range(0, random.Next(depth == 0 ? 6 : 3)).Select(_ => Of(schema["items"]!, depth + 1))]);
            case "boolean":
                return random.Next(2) == 0;
            case "integer":
                return random.Next(2) == 0 && schema["example"] is { } whole ? whole.DeepClone() : random.Next(-1, 400);
            case "number":
                return random.Next(2) == 0 && schema["example"] is { } number ? number.DeepClone() : Math.Round(random.NextDouble() * 2, 3);
            case "string" when (string?)schema["format"] == "date":
                return Day();
            case "string" when (string?)schema["format"] == "date-time":
                return Day() + "T11:00:00Z";
            case "string":
                return named["example"]?.DeepClone() ?? schema["example"]?.DeepClone() ?? JsonValue.Create($"t{random.Next(20)}");
            default:
                return Oddities.Json(random);
        }
    }

    private string Day() => Today.AddDays(-random.Next(-2, 400)).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    // New identities mostly, known ones sometimes, so that things happen to what is there.
    private void Freshen(JsonObject parent, string name)
    {
        if (parent[name] is not JsonValue value || value.GetValueKind() != System.Text.Json.JsonValueKind.String)
        {
            return;
        }

        parent[name] = name switch
        {
            "sourceId" => random.Next(5) > 0 ? $"n-{++_made}" : known.Any(name, random) ?? $"n-{_made}",
            "animal" or "tube" or "heldId" or "pen" when random.Next(2) == 0 => known.Any(name, random) ?? value.ToString(),
            "inForceFrom" => Day(),
            "now" => Today.AddDays(1 + random.Next(1000)).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) + "T12:00:00Z",
            // Many animals, so that few share an identifier.
            "id" when parent.ContainsKey("scheme") => $"84000312345{random.Next(1000):0000}",
            _ => value.DeepClone(),
        };
    }

    private static void Walk(JsonNode? node, Action<JsonObject, string> visit)
    {
        if (node is JsonObject named)
        {
            foreach (var name in named.Select(p => p.Key).ToArray())
            {
                visit(named, name);
                Walk(named[name], visit);
            }
        }

        foreach (var item in node as JsonArray ?? [])
        {
            Walk(item, visit);
        }
    }

    private static void Collect(JsonNode node, List<(JsonNode Parent, object Key)> places)
    {
        IEnumerable<(object Key, JsonNode? Value)> children = node switch
        {
            JsonObject named => named.Select(p => ((object)p.Key, p.Value)),
            JsonArray list => list.Select((v, i) => ((object)i, v)),
            _ => [],
        };
        foreach (var (key, value) in children)
        {
            places.Add((node, key));
            if (value is not null)
            {
                Collect(value, places);
            }
        }
    }

    private void Change((JsonNode Parent, object Key) place)
    {
        var (parent, key) = place;
        var now = parent is JsonArray list ? list[(int)key] : parent[(string)key];
        switch (random.Next(8))
        {
            case 0 when parent is JsonObject named:
                named.Remove((string)key);
                break;
            case 1 when now is JsonObject inner:
                inner[random.Next(2) == 0 ? "unknown" : Oddities.Text(random)] = Oddities.Json(random);
                break;
            case 2 when parent is JsonArray twice:
                twice.Insert(0, now?.DeepClone());
                break;
            case 3:
                Set(parent, key, new JsonArray(now?.DeepClone()));
                break;
            case 4 when now is JsonArray many && many.Count > 0:
                for (var n = 0; n < 200; n++)
                {
                    many.Add(many[0]?.DeepClone());
                }

                break;
            case 5:
                Set(parent, key, JsonValue.Create(random.Next(2) == 0 ? Day() : Oddities.Text(random)));
                break;
            default:
                Set(parent, key, Oddities.Json(random));
                break;
        }
    }

    private static void Set(JsonNode parent, object key, JsonNode? value)
    {
        if (parent is JsonArray list)
        {
            list[(int)key] = value;
        }
        else
        {
            parent[(string)key] = value;
        }
    }
}
