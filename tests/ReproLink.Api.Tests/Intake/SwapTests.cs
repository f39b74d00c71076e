using System.Globalization;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Rounds;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Intake;

/// <summary>Whatever is swapped, no result is applied to an animal that its label, tube or identifier contradicts.</summary>
public sealed class SwapTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private const int Cows = 10;

    [Theory]
    [InlineData(11)]
    [InlineData(12)]
    [InlineData(13)]
    [InlineData(14)]
    public async Task SwappedTubesAndAnimals_AreHeldAndTheRightOnesAccepted(int seed)
    {
        var random = new Random(seed);
        var herd = await RoundHerd.Drawn(host, Cows);
        var results = Enumerable.Range(1, Cows).SelectMany(cow => new[] { 1, 2 }.Select(_ => (Cow: random.Next(1, Cows + 1), Tube: random.Next(1, Cows + 1)))).ToArray();
        results[0] = (3, 3);
        var body = new JsonArray([.. results.Select((r, i) => (JsonNode)new JsonObject
        {
            ["sourceId"] = $"x{i}",
            ["animal"] = Named(random, r.Cow),
            ["tube"] = $"R1-{r.Tube:000}",
            ["sampled"] = "2026-10-05",
            ["outcome"] = "open",
        })]);
        var answer = await herd.Post("/test-results", body.ToJsonString());
        for (var i = 0; i < results.Length; i++)
        {
            var right = results[i].Cow == results[i].Tube;
            Assert.Equal(right ? "accepted" : "held", (string?)answer.Results[i]!["status"]);
            Assert.Equal(right ? null : "tube-animal-mismatch", (string?)answer.Results[i]!["reason"]);
        }

        var applied = (await herd.Get("/facts?limit=1000"))["facts"].AsArray().Where(f => (string?)f!["kind"] == "result").ToArray();
        Assert.NotEmpty(applied);
        Assert.All(applied, f => Assert.Equal($"R1-{int.Parse((string)f!["animal"]!, CultureInfo.InvariantCulture):000}", (string?)f["tube"]));
        foreach (var cow in results.Where(r => r.Cow != r.Tube).SelectMany(r => new[] { r.Cow, r.Tube }).Distinct())
        {
            Assert.Equal("held-result", (string?)(await herd.Get($"/animals/{cow}/test-window"))["gate"]["pgf"]!["clause"]);
        }
    }

    private static string Named(Random random, int cow) => random.Next(3) switch
    {
        0 => cow.ToString(CultureInfo.InvariantCulture),
        1 => $"84000{cow:0000}",
        _ => $"84000 {cow:0000}",
    };
}
