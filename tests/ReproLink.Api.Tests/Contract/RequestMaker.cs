using System.Text;
using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Contract;

/// <summary>Makes requests for an operation: as documented, and wrong in every place a request has.</summary>
internal sealed class RequestMaker(ContractDocument document, KnownValues known, IReadOnlyList<string> herds, IReadOnlyList<string> keys, int largestBody, Random random)
{
    private static readonly string[] OddPathParts = ["", ".", "..", "%2e%2e", "%", "%zz", "%ff", "%c3%28", "%0d%0a", "%00", "%252F", "a%2Fb", ";a=b", "a%3Fb", "%F0%9F%90%84"];
    private static readonly string[] OddQueries = ["%ff", "%", "%zz", "+", "%00", "%0d%0a", "a%26b", "%ed%a0%80"];
    private static readonly string[] MediaTypes =
        ["application/json; charset=utf-16", "application/json;charset=\"utf-8\"", "text/plain", "text/csv", "application/xml", "multipart/form-data; boundary=x", "application/x-www-form-urlencoded", ";;;", "APPLICATION/JSON", "application/json; charset=utf-8"];
    private static readonly string[] Accepts = ["*/*", "application/json", "text/csv", "application/pdf", "application/problem+json", ";;", "text/*;q=0.1, application/json;q=0", "text/html"];

    private readonly BodyMaker _bodies = new(document, known, random);

    public ContractRequest Make(ContractOperation operation, bool mayBeBad = true)
    {
        var bad = mayBeBad && random.Next(100) >= 40;
        var stray = bad && random.Next(12) == 0;
        var (path, strayed) = Path(operation, bad, stray);
        var (body, mediaType) = Body(operation, bad);
        return new ContractRequest(operation, operation.Method, path + Query(operation, bad), [.. Headers(operation, bad)], body, mediaType) { Stray = strayed };
    }

    /// <summary>A method the path is not documented with.</summary>
    public ContractRequest OtherMethod(ContractOperation operation, string method) => new(operation, method, Path(operation, bad: false, stray: false).Path, [], null, null);

    private (string Path, bool Strayed) Path(ContractOperation operation, bool bad, bool stray)
    {
        var parts = operation.Path.Split('/');
        var varying = Enumerable.Range(0, parts.Length).Where(i => parts[i].Contains('{', StringComparison.Ordinal)).ToArray();
        var odd = stray && varying.Length > 0 ? varying[random.Next(varying.Length)] : -1;
        var herd = herds[random.Next(herds.Count)].Split('/');
        for (var i = 0; i < parts.Length; i++)
        {
            parts[i] = i == odd ? OddPathParts[random.Next(OddPathParts.Length)] : parts[i] switch
            {
                "{scheme}" => Uri.EscapeDataString(bad && random.Next(30) == 0 ? OddName() : herd[0]),
                "{id}" => Uri.EscapeDataString(bad && random.Next(30) == 0 ? OddName() : herd[1].Replace('|', '/')),
                ['{', .. var name, '}'] => Uri.EscapeDataString(PathValue(operation, name, bad)),
                var plain => plain,
            };
        }

        return (string.Join('/', parts), odd >= 0);
    }

    private string PathValue(ContractOperation operation, string name, bool bad)
    {
        if (bad && random.Next(4) == 0)
        {
            return OddName();
        }

        // An id of the same noun, for there are many kinds of ids with one name.
        var example = operation.Parameters.First(p => p.Name == name).Example;
        return random.Next(5) == 0 ? example : known.Any($"{operation.Noun}/id", random) ?? known.Any(name, random) ?? example;
    }

    // Not empty, and nothing the server itself takes for another address or for no address at all.
    private string OddName()
    {
        var text = Oddities.Text(random);
        return text.Length == 0 || text.Contains('\0', StringComparison.Ordinal) || text.Length > 2000 ? "odd" : text;
    }

    private string Query(ContractOperation operation, bool bad)
    {
        var query = new List<string>();
        foreach (var parameter in operation.Parameters.Where(p => p.In == "query" && random.Next(5) < 2))
        {
            query.Add($"{parameter.Name}={QueryValue(parameter, bad)}");
            if (bad && random.Next(30) == 0)
            {
                query.Add($"{parameter.Name}={QueryValue(parameter, bad)}");
            }
        }

        if (bad && random.Next(15) == 0)
        {
            query.Add(random.Next(3) switch { 0 => "unknown=1", 1 => "=", _ => Uri.EscapeDataString(Oddities.Text(random)) });
        }

        return query.Count == 0 ? "" : "?" + string.Join('&', query);
    }

    private string QueryValue(ContractParameter parameter, bool bad)
    {
        if (bad && random.Next(3) == 0)
        {
            return random.Next(4) == 0 ? OddQueries[random.Next(OddQueries.Length)] : Uri.EscapeDataString(Oddities.Text(random));
        }

        if (parameter.Schema["enum"] is JsonArray words)
        {
            return Uri.EscapeDataString(words[random.Next(words.Count)]!.ToString());
        }

        var example = parameter.Example;
        if ((string?)parameter.Schema["format"] == "date")
        {
            example = new DateOnly(2026, 10, 5).AddDays(random.Next(-60, 20)).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
        }

        return Uri.EscapeDataString(known.Any(parameter.Name, random) is { } there && random.Next(2) == 0 ? there : example);
    }

    private IEnumerable<(string Name, string Value)> Headers(ContractOperation operation, bool bad)
    {
        foreach (var parameter in operation.Parameters.Where(p => p.In == "header" && random.Next(4) == 0))
        {
            var known2 = known.Any(parameter.Name, random) ?? parameter.Example;
            var value = bad && random.Next(4) == 0 ? Oddities.Text(random) : parameter.Name == "Idempotency-Key" ? $"k{random.Next(40)}" : known2;
            yield return (parameter.Name, value.ReplaceLineEndings(" ").Replace('\0', ' '));
        }

        if (bad && random.Next(8) == 0)
        {
            yield return ("Accept", Accepts[random.Next(Accepts.Length)]);
        }

        if (bad && random.Next(15) == 0)
        {
            yield return ("Authorization", random.Next(4) switch { 0 => "Bearer wrong", 1 => "Basic eDp5", 2 => "Bearer", _ => "Bearer é" });
        }
        else if (random.Next(3) == 0)
        {
            yield return ("Authorization", "Bearer " + keys[random.Next(keys.Count)]);
        }
    }

    private (byte[]? Body, string? MediaType) Body(ContractOperation operation, bool bad)
    {
        if (operation.Bodies.Count == 0)
        {
            return bad && operation.Method != "GET" && random.Next(20) == 0 ? (Encoding.UTF8.GetBytes("{}"), "application/json") : (null, null);
        }

        var (mediaType, (schema, example)) = operation.Bodies.ElementAt(random.Next(operation.Bodies.Count));
        var body = mediaType == "text/csv"
            ? _bodies.Csv((string)example!, bad && random.Next(2) == 0)
            : Json(schema, example, bad && random.Next(4) > 0);
        if (bad && random.Next(10) == 0)
        {
            body = Oddities.Damaged(body, random);
        }

        if (bad && random.Next(60) == 0)
        {
            body = Encoding.UTF8.GetBytes(new string(' ', largestBody + random.Next(2)));
        }

        return bad && random.Next(12) == 0
            ? random.Next(6) == 0 ? (random.Next(2) == 0 ? null : body, null) : (body, MediaTypes[random.Next(MediaTypes.Length)])
            : (body, mediaType);
    }

    private byte[] Json(JsonNode schema, JsonNode example, bool bad)
    {
        var body = _bodies.Good(schema, example);
        return Encoding.UTF8.GetBytes((bad ? _bodies.Bad(body) : body)?.ToJsonString() ?? "null");
    }
}
