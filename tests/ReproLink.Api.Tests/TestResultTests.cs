using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

public sealed class TestResultTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    // 1 was served 40 days ago and may be tested; 2 and 3 share an identifier; tubes R1 and R2 are hers and 2's.
    private const string Facts = """
        [{"sourceId":"c1","kind":"calving","animal":"1","date":"2026-05-01"},{"sourceId":"s1","kind":"insemination","animal":"1","date":"2026-08-26"},
         {"sourceId":"a1","kind":"animal","animal":"1","identifiers":[{"scheme":"us.bovine","id":"840001"}]},
         {"sourceId":"a2","kind":"animal","animal":"2","identifiers":[{"scheme":"us.bovine","id":"840002"},{"scheme":"tag","id":"77"}]},
         {"sourceId":"a3","kind":"animal","animal":"3","identifiers":[{"scheme":"collar","id":"77"}]},
         {"sourceId":"b1","kind":"sample","animal":"1","date":"2026-10-05","tube":"R1"},{"sourceId":"b2","kind":"sample","animal":"2","date":"2026-10-05","tube":"R2"}]
        """;

    private const string CutOffs = """{"inForceFrom":"2026-01-01","test":{"cutOffs":{"openBelow":0.21,"pregnantAbove":0.30,"unit":"S-N"}}}""";

    private async Task<(HerdClient Herd, JsonNode Answer)> Post(string result, string? programme = null)
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(Facts);
        if (programme is not null)
        {
            Assert.Equal(HttpStatusCode.OK, (await herd.Put("/programme", programme)).Status);
        }

        var answer = await herd.Post("/test-results", $"[{result.Insert(1, "\"sourceId\":\"r\",")}]");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        return (herd, answer.Results[0]!);
    }

    [Theory]
    [InlineData("""{"animal":"99","sampled":"2026-10-05","method":"blood","outcome":"open"}""", "unknown-animal")]
    [InlineData("""{"tube":"R9","sampled":"2026-10-05","method":"blood","outcome":"open"}""", "unknown-tube")]
    [InlineData("""{"animal":"1","tube":"R2","sampled":"2026-10-05","method":"blood","outcome":"open"}""", "tube-animal-mismatch")]
    [InlineData("""{"animal":"99","tube":"R2","sampled":"2026-10-05","method":"blood","outcome":"open"}""", "tube-animal-mismatch")]
    [InlineData("""{"tube":"R1","sampled":"2026-10-04","method":"blood","outcome":"open"}""", "no-sample-on-record")]
    [InlineData("""{"animal":"77","sampled":"2026-10-05","method":"blood","outcome":"open"}""", "ambiguous-identifier")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"blood","value":0.1,"unit":"S-N","assay":"herd-default"}""", "assay-unknown")]
    public async Task Post_WhatCannotBeTied_IsHeldAndDecidesNothing(string result, string reason)
    {
        var (herd, answer) = await Post(result);
        Assert.Equal("held", (string?)answer["status"]);
        Assert.Equal(reason, (string?)answer["reason"]);
        Assert.StartsWith("h_", (string?)answer["heldId"], StringComparison.Ordinal);
        Assert.Null(answer["factId"]);
        Assert.Equal(7, (await herd.Get("/facts"))["facts"].AsArray().Count);
    }

    [Theory]
    [InlineData("1", """{"animal":"1","tube":"R2","sampled":"2026-10-05","method":"blood","outcome":"open"}""")]
    [InlineData("2", """{"animal":"1","tube":"R2","sampled":"2026-10-05","method":"blood","outcome":"open"}""")]
    [InlineData("2", """{"animal":"77","sampled":"2026-10-05","method":"blood","outcome":"open"}""")]
    [InlineData("3", """{"animal":"77","sampled":"2026-10-05","method":"blood","outcome":"open"}""")]
    [InlineData("1", """{"animal":"840001","sampled":"2026-10-05","method":"blood","value":0.1}""")]
    public async Task Post_Held_ClosesTheGateOfEveryAnimalItMayMean(string animal, string result)
    {
        var (herd, _) = await Post(result);
        Assert.Equal("held-result", (string?)(await herd.Get($"/animals/{animal}/test-window"))["gate"]["pgf"]!["clause"]);
    }

    [Theory]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","outcome":"open"}""")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open"}""")]
    [InlineData("""{"animal":"1","tube":"R1","sampled":"2026-10-05","method":"blood","outcome":"open"}""")]
    [InlineData("""{"tube":"R1","sampled":"2026-10-05","method":"blood","outcome":"open"}""")]
    [InlineData("""{"animal":"840001","sampled":"2026-10-05","method":"blood","outcome":"open"}""")]
    [InlineData("""{"animal":"1","sampled":"2026-10-04","time":"06:30","reported":"2026-10-05T11:00:00.5Z","method":"blood","outcome":"open"}""")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"ultrasound","outcome":"open","corpusLuteum":true,"examiner":"V"}""")]
    public async Task Post_Open_IsTiedAndDecidesOpen(string result)
    {
        var (herd, answer) = await Post(result);
        Assert.Equal("accepted", (string?)answer["status"]);
        Assert.Equal("1", (string?)answer["animal"]);
        Assert.Equal("open", (string?)answer["decides"]);
        Assert.NotEmpty(answer["reasons"]!.AsArray());
        Assert.Equal("open", (string?)(await herd.Get("/animals/1/test-window"))["status"]);
    }

    [Fact]
    public async Task Post_Milk_DecidesNothingUnlessTheProgrammeTestsMilk()
    {
        const string Milk = """{"animal":"1","sampled":"2026-10-05","method":"milk","outcome":"open"}""";
        var (_, without) = await Post(Milk);
        Assert.Equal("nothing", (string?)without["decides"]);
        Assert.NotEmpty(without["reasons"]!.AsArray());
        var (_, with) = await Post(Milk, """{"inForceFrom":"2026-01-01","test":{"method":"milk"}}""");
        Assert.Equal("open", (string?)with["decides"]);
    }

    [Theory]
    [InlineData("0.20", "open")]
    [InlineData("0.21", "recheck")]
    [InlineData("0.25", "recheck")]
    [InlineData("0.30", "recheck")]
    [InlineData("0.31", "pregnant")]
    public async Task Post_ValueAlone_IsJudgedByTheCutOffs(string value, string decides)
    {
        var (_, answer) = await Post($$"""{"animal":"1","sampled":"2026-10-05","method":"blood","value":{{value}},"unit":"S-N","assay":"herd-default"}""", CutOffs);
        Assert.Equal(decides, (string?)answer["decides"]);
    }

    [Theory]
    [InlineData("\"unit\":\"OD\",\"assay\":\"herd-default\"")]
    [InlineData("\"unit\":\"S-N\",\"assay\":\"other\"")]
    [InlineData("\"assay\":\"herd-default\"")]
    public async Task Post_ValueOfAnotherAssayOrUnit_IsNeverConverted(string rest)
    {
        var (_, answer) = await Post($$"""{"animal":"1","sampled":"2026-10-05","method":"blood","value":0.1,{{rest}}}""", CutOffs);
        Assert.Equal("assay-unknown", (string?)answer["reason"]);
    }

    [Fact]
    public async Task Post_OutcomeAndValueDisagree_IsARecheckWithAWarning()
    {
        var (_, answer) = await Post("""{"animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open","value":0.5,"unit":"S-N","assay":"herd-default"}""", CutOffs);
        Assert.Equal("accepted", (string?)answer["status"]);
        Assert.Equal("recheck", (string?)answer["decides"]);
        Assert.NotEmpty(answer["warnings"]!.AsArray());
    }

    [Fact]
    public async Task Post_RoundsRequired_HoldsWithoutASample()
    {
        const string Programme = """{"inForceFrom":"2026-01-01","requireRounds":true}""";
        var (_, without) = await Post("""{"animal":"1","sampled":"2026-10-04","method":"blood","outcome":"open"}""", Programme);
        Assert.Equal("no-sample-on-record", (string?)without["reason"]);
        var (_, with) = await Post("""{"animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open"}""", Programme);
        Assert.Equal("accepted", (string?)with["status"]);
        var (_, seen) = await Post("""{"animal":"1","sampled":"2026-10-04","method":"palpation","outcome":"open"}""", Programme);
        Assert.Equal("accepted", (string?)seen["status"]);
    }

    [Theory]
    [InlineData("""{"animal":"1","method":"blood","outcome":"open"}""", "sampled")]
    [InlineData("""{"animal":"1","sampled":"2026-10-07","method":"blood","outcome":"open"}""", "sampled")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"xray","outcome":"open"}""", "method")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"blood","outcome":"empty"}""", "outcome")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"blood"}""", "outcome")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"ultrasound","value":3}""", "outcome")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"ultrasound","outcome":"open","value":3}""", "value")]
    [InlineData("""{"sampled":"2026-10-05","method":"blood","outcome":"open"}""", "animal")]
    [InlineData("""{"tube":"R1","sampled":"2026-10-05","method":"ultrasound","outcome":"open"}""", "tube")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open","value":1e999}""", "value")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open","value":"0.1"}""", "value")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","reported":"2026-10-04T12:00:00Z","method":"blood","outcome":"open"}""", "reported")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","reported":"2026-10-07T12:00:00Z","method":"blood","outcome":"open"}""", "reported")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","reported":"2026-10-05","method":"blood","outcome":"open"}""", "reported")]
    [InlineData("""{"animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open","recordedAt":"2026-10-05T00:00:00Z"}""", "recordedAt")]
    public async Task Post_BadItem_IsRejectedByName(string result, string field)
    {
        var (_, answer) = await Post(result);
        Assert.Equal("rejected", (string?)answer["status"]);
        Assert.Equal(field, (string?)answer["problem"]!["field"]);
    }

    [Fact]
    public async Task Post_SameAgain_IsADuplicate_AlsoWhenHeld()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(Facts);
        const string Results = """
            [{"sourceId":"1","animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open"},{"sourceId":"2","animal":"99","sampled":"2026-10-05","method":"blood","outcome":"open"}]
            """;
        var first = await herd.Post("/test-results", Results);
        var again = await herd.Post("/test-results", Results);
        Assert.Equal("duplicate", (string?)again.Results[0]!["status"]);
        Assert.Equal((string?)first.Results[1]!["heldId"], (string?)again.Results[1]!["heldId"]);
    }

    [Fact]
    public async Task Post_UnknownAnimal_IsReleasedWhenSheAppears()
    {
        var (herd, answer) = await Post("""{"animal":"99","sampled":"2026-10-05","method":"blood","outcome":"open"}""");
        Assert.Equal("unknown-animal", (string?)answer["reason"]);
        await herd.Accept("""[{"sourceId":"c99","kind":"calving","animal":"99","date":"2026-05-01"},{"sourceId":"s99","kind":"insemination","animal":"99","date":"2026-08-26"}]""");
        Assert.Equal("open", (string?)(await herd.Get("/animals/99/test-window"))["status"]);
    }

    [Fact]
    public async Task Post_TwoThatDisagree_AreBothAcceptedAndMakeAConflict()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(Facts);
        var answer = await herd.Post("/test-results", """
            [{"sourceId":"1","animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open"},{"sourceId":"2","animal":"1","sampled":"2026-10-05","method":"blood","outcome":"pregnant"}]
            """);
        Assert.All(answer.Results, r => Assert.Equal("accepted", (string?)r!["status"]));
        Assert.Equal("conflict", (string?)(await herd.Get("/animals/1/test-window"))["status"]);
    }

    [Fact]
    public async Task Post_TiedAndThenUntiedInOneBatch_TheSecondIsRefusedNotLost()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(Facts);
        var answer = await herd.Post("/test-results", """
            [{"sourceId":"1","animal":"1","sampled":"2026-10-05","method":"blood","outcome":"open"},{"sourceId":"1","animal":"99","sampled":"2026-10-05","method":"blood","outcome":"open"}]
            """);
        Assert.Equal(["accepted", "rejected"], answer.Results.Select(r => (string?)r!["status"]));
        // In a batch of its own it takes back what was said of the first animal.
        await herd.Post("/test-results", """[{"sourceId":"1","animal":"99","sampled":"2026-10-05","method":"blood","outcome":"open"}]""");
        Assert.Equal("awaiting-test", (string?)(await herd.Get("/animals/1/test-window"))["status"]);
    }
}
