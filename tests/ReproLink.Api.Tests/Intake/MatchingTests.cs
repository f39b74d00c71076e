using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Rounds;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Intake;

/// <summary>The label says whose blood it is; whatever contradicts it is held.</summary>
public sealed class MatchingTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private static async Task<JsonNode> Post(HerdClient herd, string rest, string id = "r")
    {
        var answer = await herd.Post("/test-results", $$"""[{"sourceId":"{{id}}","sampled":"2026-10-05","outcome":"open",{{rest}}}]""");
        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
        return answer.Results[0]!;
    }

    [Theory]
    [InlineData("\"tube\":\"R1-002\"", "2")]
    [InlineData("\"tube\":\"r1-2\"", "2")]
    [InlineData("\"tube\":\"R1 - 002\"", "2")]
    [InlineData("\"animal\":\"2\",\"tube\":\"R1-002\"", "2")]
    [InlineData("\"animal\":\"840000002\",\"tube\":\"R1-002\"", "2")]
    [InlineData("\"animal\":\"84000 0002\"", "2")]
    [InlineData("\"animal\":\"002\"", "2")]
    public async Task Post_NamedRightly_IsTied(string rest, string animal)
    {
        var herd = await RoundHerd.Drawn(host, 3);
        var answer = await Post(herd, rest);
        Assert.Equal("accepted", (string?)answer["status"]);
        Assert.Equal(animal, (string?)answer["animal"]);
        Assert.Equal("open", (string?)answer["decides"]);
    }

    [Theory]
    [InlineData("\"animal\":\"3\",\"tube\":\"R1-002\"", "tube-animal-mismatch")]
    [InlineData("\"animal\":\"99\",\"tube\":\"R1-002\"", "tube-animal-mismatch")]
    [InlineData("\"tube\":\"R1-009\"", "unknown-tube")]
    [InlineData("\"animal\":\"2\",\"tube\":\"R1-009\"", "unknown-tube")]
    [InlineData("\"animal\":\"99\"", "unknown-animal")]
    public async Task Post_WhatTheLabelContradicts_IsHeld(string rest, string reason)
    {
        var herd = await RoundHerd.Drawn(host, 3);
        Assert.Equal(reason, (string?)(await Post(herd, rest))["reason"]);
        Assert.DoesNotContain((await herd.Get("/facts?limit=1000"))["facts"].AsArray(), f => (string?)f!["kind"] == "result");
    }

    [Theory]
    [InlineData("""{"state":"not-drawn","reason":"refused"}""")]
    [InlineData("""{"state":"broken"}""")]
    [InlineData(null)]
    public async Task Post_OfATubeNeverDrawn_IsHeldAndClosesHerGate(string? mark)
    {
        var herd = await RoundHerd.Create(host, 3, "2026-09-04");
        await herd.Freeze("""{"date":"2026-10-05"}""");
        if (mark is not null)
        {
            Assert.Equal(HttpStatusCode.OK, (await herd.Mark("R1-002", mark)).Status);
            Assert.Equal("no-sample-on-record", (string?)(await Post(herd, "\"animal\":\"2\"", "by-animal"))["reason"]);
        }

        Assert.Equal("no-sample-on-record", (string?)(await Post(herd, "\"tube\":\"R1-002\""))["reason"]);
        Assert.Equal("no-sample-on-record", (string?)(await Post(herd, "\"animal\":\"2\",\"tube\":\"R1-002\"", "both"))["reason"]);
        Assert.Equal("held-result", (string?)(await herd.Get("/animals/2/test-window"))["gate"]["pgf"]!["clause"]);
    }

    [Fact]
    public async Task Post_OfTheGivenUpTube_IsHeldAndOfTheNewOneAccepted()
    {
        var herd = await RoundHerd.Create(host, 2, "2026-09-04");
        await herd.Freeze("""{"date":"2026-10-05"}""");
        await herd.Draw("R1-001");
        await herd.Post("/sampling-rounds/R1/tubes", """{"redraws":"R1-001"}""");
        await herd.Draw("R1-003");
        Assert.Equal("no-sample-on-record", (string?)(await Post(herd, "\"tube\":\"R1-001\"", "old"))["reason"]);
        Assert.Equal("accepted", (string?)(await Post(herd, "\"tube\":\"R1-003\"", "new"))["status"]);
    }

    [Fact]
    public async Task Post_OnADayTheTubeWasNotDrawn_IsHeld()
    {
        var herd = await RoundHerd.Drawn(host, 1);
        var answer = await herd.Post("/test-results", """[{"sourceId":"r","tube":"R1-001","sampled":"2026-10-02","outcome":"open"}]""");
        Assert.Equal("no-sample-on-record", (string?)answer.Results[0]!["reason"]);
    }

    // 07, 7 and 007 are three cows: what is exactly one of them is hers, what is none fits all three.
    [Theory]
    [InlineData("7", "7")]
    [InlineData("007", "007")]
    [InlineData("00007", null)]
    [InlineData("0 7", null)]
    public async Task Post_ZerosAndBlanks_AnExactMatchWinsAndAnotherOneMustBeTheOnlyOne(string sent, string? animal)
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept("""[{"sourceId":"1","kind":"animal","animal":"7"},{"sourceId":"2","kind":"animal","animal":"07"},{"sourceId":"3","kind":"animal","animal":"007"}]""");
        var answer = await Post(herd, $"\"animal\":\"{sent}\"");
        Assert.Equal(animal, (string?)answer["animal"]);
        Assert.Equal(animal is null ? "ambiguous-identifier" : null, (string?)answer["reason"]);
    }

    [Fact]
    public async Task Post_CorrectedResult_ReplacesAndTheCalendarFollows()
    {
        var herd = await RoundHerd.Drawn(host, 1);
        await Post(herd, "\"tube\":\"R1-001\"");
        Assert.Equal("open", (string?)(await herd.Get("/animals/1/test-window"))["status"]);
        var corrected = await herd.Post("/test-results", """[{"sourceId":"r","tube":"R1-001","sampled":"2026-10-05","outcome":"pregnant"}]""");
        Assert.Equal("replaced", (string?)corrected.Results[0]!["status"]);
        Assert.Equal("pregnant", (string?)(await herd.Get("/animals/1/test-window"))["status"]);
    }

    [Fact]
    public async Task Post_ReissuedForAnotherCow_IsHeldAndTheOldOneNoLongerDecides()
    {
        var herd = await RoundHerd.Drawn(host, 2);
        await Post(herd, "\"tube\":\"R1-001\"");
        Assert.Equal("tube-animal-mismatch", (string?)(await Post(herd, "\"animal\":\"2\",\"tube\":\"R1-001\""))["reason"]);
        Assert.Equal("held-result", (string?)(await herd.Get("/animals/1/test-window"))["gate"]["pgf"]!["clause"]);
        Assert.DoesNotContain((await herd.Get("/facts?limit=1000"))["facts"].AsArray(), f => (string?)f!["kind"] == "result");
    }

    [Fact]
    public async Task Release_OfAResultWhoseTubeWasLabelledForAnotherSince_WaitsForAPerson()
    {
        var herd = await RoundHerd.Create(host, 1, "2026-09-04");
        Assert.Equal("unknown-animal", (string?)(await Post(herd, "\"animal\":\"99\",\"tube\":\"R1-001\""))["reason"]);
        await herd.Freeze("""{"date":"2026-10-05"}""");
        await herd.Accept("""[{"sourceId":"late","kind":"calving","animal":"99","date":"2026-06-01"}]""");
        Assert.Single((await herd.Get("/held-results"))["held"].AsArray());
    }

    [Fact]
    public async Task Facts_NobodyPostsAsARound()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/facts", """[{"source":"round","sourceId":"R1-001","kind":"sample","animal":"1","date":"2026-10-05"}]""");
        Assert.Equal("source", (string?)answer.Results[0]!["problem"]!["field"]);
    }
}
