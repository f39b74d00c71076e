using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Rounds;

/// <summary>Rules L1 and L3: tubes that wait are nagged about, and those that waited too long decide nothing.</summary>
public sealed class StorageTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private async Task<HerdClient> Late(string drawn)
    {
        var herd = await RoundHerd.Create(host, 1, "2026-08-15");
        await herd.Freeze("""{"date":"2026-10-05","animals":["1"]}""");
        await herd.Mark("R1-001", $$"""{"state":"drawn","date":"{{drawn}}"}""");
        return herd;
    }

    private static async Task<JsonNode?> Dispatches(HerdClient herd) =>
        (await herd.Get("/work-calendar?from=2026-10-05&to=2026-10-05&kind=dispatch"))["items"].AsArray().FirstOrDefault(i => (bool?)i!["overdue"] == true);

    [Theory]
    [InlineData("2026-09-21", false)]
    [InlineData("2026-09-20", true)]
    public async Task Dispatch_AfterFourteenDays_IsFlaggedAndItsResultDecidesNothing(string drawn, bool tooOld)
    {
        var herd = await Late(drawn);
        var sent = await herd.Post("/sampling-rounds/R1/dispatch", "{}");
        Assert.Equal(tooOld, (bool?)sent["tubes"][0]!["tooOld"] == true);
        Assert.Equal(tooOld, sent["warnings"].AsArray().Any(w => ((string)w!).StartsWith("L3", StringComparison.Ordinal)));
        var answer = (await herd.Post("/test-results", $$"""[{"sourceId":"r","tube":"R1-001","sampled":"{{drawn}}","outcome":"open"}]""")).Results[0]!;
        Assert.Equal("accepted", (string?)answer["status"]);
        Assert.Equal(tooOld ? "nothing" : "open", (string?)answer["decides"]);
        Assert.Equal(tooOld, answer["reasons"]!.AsArray().Any(r => (string?)r!["rule"] == "L3"));
        Assert.Equal(tooOld ? "eligible" : "not-needed", (string?)(await herd.Get("/animals/1/test-window"))["answer"]);
        Assert.Contains(tooOld ? "invalid" : "full", (await herd.Get("/sampling-rounds/R1/manifest")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Result_ThatCameBeforeTheLateDispatchWasRecorded_IsSetAsideToo()
    {
        var herd = await Late("2026-09-20");
        const string Open = """[{"sourceId":"r","animal":"1","sampled":"2026-09-20","outcome":"open"}]""";
        Assert.Equal("open", (string?)(await herd.Post("/test-results", Open)).Results[0]!["decides"]);
        await herd.Send("R1");
        Assert.Equal("nothing", (string?)(await herd.Post("/test-results", Open)).Results[0]!["decides"]);
        Assert.NotEqual("open", (string?)(await herd.Get("/animals/1/test-window"))["status"]);
    }

    [Fact]
    public async Task Result_OfALateTubeThatSaysPregnant_StillWithholds()
    {
        var herd = await RoundHerd.Create(host, 1, "2026-08-01");
        await herd.Freeze("""{"date":"2026-10-05","animals":["1"]}""");
        await herd.Mark("R1-001", """{"state":"drawn","date":"2026-09-20"}""");
        await herd.Send("R1");
        await herd.Post("/test-results", """[{"sourceId":"a","animal":"1","sampled":"2026-09-10","method":"ultrasound","outcome":"open"}]""");
        await herd.Post("/test-results", """[{"sourceId":"r","tube":"R1-001","sampled":"2026-09-20","outcome":"pregnant"}]""");
        Assert.False((bool)(await herd.Get("/animals/1/test-window"))["gate"]["pgf"]!["allowed"]!);
    }

    [Fact]
    public async Task WorkCalendar_NagsUntilTheTubesLeave()
    {
        var herd = await Late("2026-09-30");
        var line = await Dispatches(herd);
        Assert.Equal(1, (int)line!["count"]!);
        Assert.Contains("30 September 2026", (string)line["reasons"]![0]!["text"]!, StringComparison.Ordinal);
        await herd.Send("R1");
        Assert.Null(await Dispatches(herd));
        var expected = (await herd.Get("/work-calendar?from=2026-10-05&to=2026-10-12&kind=result-expected"))["items"].AsArray();
        Assert.Contains(expected, i => (string?)i!["date"] == "2026-10-06");
    }

    [Fact]
    public async Task WorkCalendar_TodaysDrawOnADispatchDay_IsNotYetOverdue()
    {
        var herd = await Late("2026-10-05");
        Assert.Null(await Dispatches(herd));
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Post("/sampling-rounds/R1/dispatch", """{"at":"2026-10-04T12:00:00Z"}""")).Status);
    }
}
