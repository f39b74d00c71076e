using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Exchange;

/// <summary>Whatever stands in a message, it is answered in the standard's form, and what comes out stays valid.</summary>
public sealed class BrokenMessageTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private static readonly string[] Junk =
    [
        "null", "7", "-1", "1e300", "0.5", "true", "\"\"", "\" \"", "\"x\"", "[]", "[7]", "[{}]", "{}", "{\"id\":7}", "\"2026-02-30T00:00:00Z\"",
        "\"0001-01-01T00:00:00Z\"", "\"0002-01-01T00:00:00+14:00\"", "\"2999-12-31T23:59:59Z\"", "\"9999-12-31T23:59:59Z\"", "\"é\\u0000\"", "\"'; DROP TABLE fact\"",
        $"\"{new string('a', 600)}\"", "\"died\"", "\"Pregnant\"", "\"2026-10-01T11:00:00Z\"", "\"2026-10-01\"", "[{\"scheme\":\"s\",\"id\":\"1\"}]",
    ];

    private static readonly IReadOnlyDictionary<string, string> Whole = new Dictionary<string, string>
    {
        ["animals"] = """{"specie":"Cattle","gender":"Female","birthDate":"2023-01-01T00:00:00Z","primaryBreed":{"scheme":"icar.breed-3","id":"HOL"},"alternativeIdentifiers":[{"scheme":"a","id":"b"}],"managementTag":"1"}""",
        ["arrivals"] = """{"animalDetail":{"birthDate":"2023-01-01T00:00:00Z","gender":"Female"},"animalState":{"currentLactationParity":2,"lastCalvingDate":"2026-05-02","lastInseminationDate":"2026-08-01","lastDryingOffDate":"2026-03-01"}}""",
        ["inseminations"] = """{"inseminationType":"RunWithBull","sireIdentifiers":[{"scheme":"s","id":"B9"}],"sireOfficialName":"B","straw":{"sireOfficialName":"B"},"eventEndDateTime":"2026-10-03T11:00:00Z","responsible":"Kim","sirePrimaryBreed":{"scheme":"a","id":"JER"},"org.reprolink":{"sireBreed":"Angus","embryoAgeDays":7}}""",
        ["pregnancy-checks"] = """{"method":"Palpation","result":"Empty","responsible":"Kim"}""",
        ["heats"] = """{"commencementDateTime":"2026-10-01T00:00:00Z","certainty":"InHeat"}""",
        ["parturitions"] = "{}",
        ["abortions"] = """{"org.reprolink":{"examined":true}}""",
        ["do-not-breeds"] = """{"doNotBreed":true,"remark":"old","extendedReasons":[{"scheme":"s","id":"age"}]}""",
        ["drying-offs"] = "{}",
        ["departures"] = """{"departureKind":"Sale","departureReason":"Age"}""",
        ["deaths"] = """{"deathReason":"Age"}""",
        ["treatments"] = """{"procedure":"gnrh","org.reprolink":{"agent":"pgf"}}""",
    };

    public static TheoryData<string> Nouns => [.. Whole.Keys];

    [Theory]
    [MemberData(nameof(Nouns))]
    public async Task EveryProperty_WithAnyValue_IsAnswered(string noun)
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("inseminations", AdeHerd.Service("s", "1"));
        var good = AdeHerd.Message(noun, "x", "1", "2026-10-02T11:00:00Z", Whole[noun]);
        var broken = Paths(good).SelectMany(path => Junk.Select((junk, i) => Broken(good, path, junk, i))).ToArray();
        var results = await herd.Batch(noun, broken);
        Assert.Equal(broken.Length, results.Count);
        Assert.All(results, r => Assert.True(r!["id"] is not null || r["messages"]!.AsArray().Count > 0, r.ToJsonString()));
        foreach (var message in broken.Where((_, i) => i % 11 == 0))
        {
            var answer = await herd.Herd.Post($"/{noun}", message.ToJsonString());
            Assert.True((int)answer.Status is 200 or 202 or 400, $"{answer.Status} {message.ToJsonString()} {answer.Text}");
            if ((int)answer.Status == 400)
            {
                AdeSchemas.Errors(answer.Json, 400);
            }
        }

        foreach (var other in AdeHerd.Nouns.Keys)
        {
            await herd.All(other, "?page-size=1000&meta-modified-from=1970-01-01T00:00:00Z");
        }
    }

    private static IEnumerable<string[]> Paths(JsonNode node, string[]? path = null)
    {
        foreach (var (name, value) in node.AsObject())
        {
            string[] here = [.. path ?? [], name];
            yield return here;
            foreach (var deeper in value is JsonObject ? Paths(value, here) : [])
            {
                yield return deeper;
            }
        }
    }

    private static JsonObject Broken(JsonObject good, string[] path, string junk, int i)
    {
        var message = good.DeepClone().AsObject();
        if (path is not ["meta", ..])
        {
            message["meta"]!["sourceId"] = $"{string.Join('/', path)}-{i}";
        }

        JsonNode at = message;
        foreach (var name in path[..^1])
        {
            at = at[name]!;
        }

        at[path[^1]] = JsonNode.Parse(junk);
        return message;
    }
}
