using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Rounds;

public sealed class BigRoundTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private const int Cows = 200;

    [Fact]
    public async Task ARoundOfTwoHundredTubes_FromTheListToTheCalendar()
    {
        var herd = await RoundHerd.Create(host, Cows, "2026-09-04");
        // The usual limit of a day stands above it.
        Assert.Equal(HttpStatusCode.OK, (await herd.Put("/programme", """{"inForceFrom":"2026-01-01","week":{"maxTubesPerDay":200}}""")).Status);
        Assert.Equal("R1", await herd.Freeze("""{"date":"2026-10-05"}"""));
        var labels = (await herd.Get("/sampling-rounds/R1/labels")).Text;
        Assert.Equal(Cows, labels.Split("<div class=\"label\"").Length - 1);
        for (var i = 1; i <= Cows; i++)
        {
            await herd.Draw(Tube(i));
        }

        var sent = await herd.Post("/sampling-rounds/R1/dispatch", "{}");
        Assert.Equal(Cows, sent["tubes"].AsArray().Count);
        Assert.Equal(Cows, (await herd.Samples()).Distinct().Count());
        var results = new JsonArray([.. Enumerable.Range(1, Cows).Select(i => (JsonNode)new JsonObject
        {
            ["sourceId"] = $"lab-{i}",
            ["tube"] = Tube(i),
            ["sampled"] = "2026-10-05",
            ["outcome"] = i % 3 == 0 ? "open" : "pregnant",
        })]);
        var answer = await herd.Post("/test-results", results.ToJsonString());
        Assert.All(answer.Results, r => Assert.Equal("accepted", (string?)r!["status"]));
        var round = await herd.Get("/sampling-rounds/R1");
        Assert.Equal("answered", (string?)round["state"]);
        Assert.Equal(Cows, (int)round["counts"]["answered"]!);
        Assert.Empty((await herd.Get("/bleed-list?from=2026-10-05&to=2026-10-11"))["days"].AsArray());
        Assert.Equal("open", (string?)(await herd.Get("/animals/3/test-window"))["status"]);
        Assert.Equal("pregnant", (string?)(await herd.Get("/animals/200/test-window"))["status"]);
    }

    private static string Tube(int i) => string.Create(CultureInfo.InvariantCulture, $"R1-{i:000}");
}
