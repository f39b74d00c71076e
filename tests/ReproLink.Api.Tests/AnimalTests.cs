using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

public sealed class AnimalTests
{
    private const string Facts = """
        [{"sourceId":"c-1","kind":"calving","animal":"1042","date":"2026-07-01"},
         {"sourceId":"s-1","kind":"insemination","animal":"1042","date":"2026-09-10","time":"08:00"}]
        """;

    [Fact]
    public async Task Window_TheWorkedExample_IsAsTheContractSays()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        var ids = await herd.Accept(Facts);
        await herd.Put("/programme", """{"inForceFrom":"2026-09-01"}""");
        await herd.Post("/programme/approvals", """{"version":1}""");
        var answer = await herd.Get("/animals/1042/test-window?on=2026-10-05");
        Assert.Equal(("awaiting-test", "not-yet", "T1", "first-test"), ((string?)answer["status"], (string?)answer["answer"], (string?)answer["reason"], (string?)answer["need"]));
        Assert.False((bool)answer["overdue"]);
        Assert.Equal("""{"opens":"2026-10-08","target":"2026-10-08","closes":"2026-10-08","changesOn":"2026-10-08"}""", answer["window"].ToJsonString());
        Assert.Contains(answer["candidates"].AsArray(), c => JsonNode.DeepEquals(c, JsonNode.Parse(
            $$"""{"rule":"T1","bound":"opens","date":"2026-10-08","text":"28 days after the service of 10 September 2026","facts":["{{ids[1]}}"]}""")));
        Assert.Contains(answer["candidates"].AsArray(), c => ((string?)c!["rule"], (string?)c["bound"], (string?)c["date"]) == ("T2", "opens", "2026-08-30"));
        Assert.Equal((false, "not-open"), ((bool)answer["gate"]["pgf"]!["allowed"]!, (string?)answer["gate"]["pgf"]!["clause"]));
        Assert.Equal(
            [("gnrh", "2026-10-05", "07:00"), ("pgf", "2026-10-12", "07:00")],
            answer["plan"].AsArray().Take(2).Select(s => ((string)s!["step"]!, (string)s["date"]!, (string)s["time"]!)));
        Assert.Equal("conditional", (string?)answer["plan"][1]!["state"]);
        Assert.NotEmpty(answer["cautions"].AsArray());
    }

    [Fact]
    public async Task Window_AsKnownBefore_IsWhatWasAnsweredThen()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        await herd.Accept(Facts);
        var before = await herd.Get("/animals/1042/test-window");
        await herd.Put("//testing/clock", """{"now":"2026-10-09T12:00:00Z"}""");
        await herd.Post("/test-results", """[{"sourceId":"r","animal":"1042","sampled":"2026-10-08","method":"blood","outcome":"pregnant"}]""");
        Assert.Equal("pregnant", (string?)(await herd.Get("/animals/1042/test-window"))["status"]);
        await herd.Put("/programme", """{"inForceFrom":"2026-01-01","test":{"minDaysPostService":40}}""");
        // The saved floor moved her first day past the sample: it was too early after all.
        Assert.Equal("awaiting-test", (string?)(await herd.Get("/animals/1042/test-window"))["status"]);
        Assert.Equal(before.Text, (await herd.Get($"/animals/1042/test-window?knownAt={ApiHostFixture.Start}")).Text);
        Assert.Equal("awaiting-test", (string?)(await herd.Get("/animals/1042/test-window?asOf=2026-10-07"))["status"]);
    }

    [Fact]
    public async Task Window_Pregnant_HasHerDates()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        await herd.Accept("""
            [{"sourceId":"a","kind":"animal","animal":"1","breed":"Holstein"},{"sourceId":"c","kind":"calving","animal":"1","date":"2026-04-01"},
             {"sourceId":"s","kind":"insemination","animal":"1","date":"2026-08-01"},
             {"sourceId":"e","kind":"examination","animal":"1","date":"2026-09-05","method":"ultrasound","outcome":"pregnant"}]
            """);
        // 279 days after 1 August; 60 days before it; 11 days either side.
        Assert.Equal(
            """{"from":"2026-08-01","due":"2027-05-07","dueFrom":"2027-04-26","dueTo":"2027-05-18","dryOff":"2027-03-08"}""",
            (await herd.Get("/animals/1/test-window"))["pregnancy"].ToJsonString());
    }

    [Fact]
    public async Task Timeline_TellsFactsStatusesAndWhatResultsDecided()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        await herd.Accept(Facts);
        await herd.Put("//testing/clock", """{"now":"2026-10-09T12:00:00Z"}""");
        await herd.Post("/test-results", """[{"sourceId":"r","animal":"1042","sampled":"2026-10-08","method":"blood","outcome":"open","value":0.1}]""");
        var story = await herd.Get("/animals/1042/timeline");
        Assert.Equal(["calving", "insemination", "result"], story["facts"].AsArray().Select(f => (string?)f!["kind"]));
        Assert.Equal(["not-served", "awaiting-test", "open"], story["statuses"].AsArray().Select(s => (string?)s!["status"]));
        Assert.Equal("open", (string?)story["results"][0]!["decides"]);
        Assert.False((bool)story["registered"]);
        // She was not tested yet on the day before.
        Assert.Equal(2, (await herd.Get("/animals/1042/timeline?asOf=2026-10-07"))["facts"].AsArray().Count);
    }

    [Theory]
    [InlineData("/animals/1042/test-window?on=2026-10-05&asOf=2026-10-06", HttpStatusCode.BadRequest)]
    [InlineData("/animals/1042/test-window?on=yesterday", HttpStatusCode.BadRequest)]
    [InlineData("/animals/1043/test-window", HttpStatusCode.NotFound)]
    [InlineData("/animals/1042/timeline?asOf=2026-06-30", HttpStatusCode.NotFound)]
    public async Task Bad_IsRefused(string path, HttpStatusCode status)
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        await herd.Accept(Facts);
        Assert.Equal(status, (await herd.Get(path)).Status);
    }
}
