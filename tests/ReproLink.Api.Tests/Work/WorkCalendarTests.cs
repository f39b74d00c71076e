using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Work;

/// <summary>From each result to dated work, over HTTP: the story of cow 1042 from her service to what her result says.</summary>
public sealed class WorkCalendarTests
{
    private const string Cow = """
        [{"sourceId":"a-1","kind":"animal","animal":"1042","breed":"Holstein","parity":1,"pen":"4"},
         {"sourceId":"c-1","kind":"calving","animal":"1042","date":"2026-07-01"},
         {"sourceId":"s-1","kind":"insemination","animal":"1042","date":"2026-09-10","time":"08:00"}]
        """;

    private const string Period = "/work-calendar?from=2026-10-05&to=2026-10-18";

    private static async Task<HerdClient> Herd(ApiHostFixture host, bool approved = true)
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(Cow);
        await herd.Put("/programme", """{"inForceFrom":"2026-09-01"}""");
        if (approved)
        {
            var approval = await herd.Post("/programme/approvals", """{"version":1,"expires":"2027-09-01"}""");
            Assert.Equal(HttpStatusCode.Created, approval.Status);
        }

        return herd;
    }

    private static async Task Result(HerdClient herd, string outcome, string clock = "2026-10-09T23:00:00Z")
    {
        await herd.Put("//testing/clock", $$"""{"now":"{{clock}}"}""");
        var answer = await herd.Post("/test-results",
            $$"""[{"sourceId":"lab-1","animal":"1042","sampled":"2026-10-08","reported":"2026-10-09T22:00:00Z","method":"blood","outcome":"{{outcome}}"}]""");
        Assert.Equal(("accepted", outcome), ((string?)answer.Results[0]!["status"], (string?)answer.Results[0]!["decides"]));
    }

    private static async Task<string[]> Steps(HerdClient herd, string more = "") =>
        [.. (await herd.Get($"{Period}&kind=step{more}"))["items"].AsArray()
            .Select(i => $"{i!["date"]} {i["time"]} {i["step"]} {i["state"]}{(i["clause"] is { } clause ? $" {clause}" : "")}")];

    [Fact]
    public async Task Before_the_result_the_gated_steps_are_conditional()
    {
        await using var host = new ApiHostFixture();
        var herd = await Herd(host);
        Assert.Equal(
            [
                "2026-10-05 07:00 gnrh firm",
                "2026-10-12 07:00 pgf conditional not-open",
                "2026-10-14 15:00 gnrh conditional not-open",
                "2026-10-15 07:00 inseminate conditional not-open",
            ],
            await Steps(herd));
        var others = (await herd.Get(Period))["items"].AsArray().Where(i => (string?)i!["kind"] != "step").Select(i => $"{i!["date"]} {i["kind"]} {i["count"]}".TrimEnd());
        Assert.Equal(["2026-10-08 draw", "2026-10-08 dispatch 1", "2026-10-09 result-expected 1"], others.Order(StringComparer.Ordinal).OrderBy(o => o[..10]).ThenBy(o => o.Contains("draw", StringComparison.Ordinal) ? 0 : 1));
    }

    [Fact]
    public async Task Open_makes_them_firm()
    {
        await using var host = new ApiHostFixture();
        var herd = await Herd(host);
        await Result(herd, "open");
        Assert.Equal(
            ["2026-10-05 07:00 gnrh done", "2026-10-12 07:00 pgf firm", "2026-10-14 15:00 gnrh firm", "2026-10-15 07:00 inseminate firm"],
            await Steps(herd));
        var window = await herd.Get("/animals/1042/test-window");
        Assert.True((bool)window["gate"]["pgf"]!["allowed"]!);
    }

    [Fact]
    public async Task Recheck_holds_prostaglandin_and_dates_the_second_sample()
    {
        await using var host = new ApiHostFixture();
        var herd = await Herd(host);
        await Result(herd, "recheck");
        Assert.Equal(
            ["2026-10-05 07:00 gnrh done", "2026-10-12 07:00 pgf held recheck", "2026-10-14 15:00 gnrh held recheck", "2026-10-15 07:00 inseminate held recheck"],
            await Steps(herd));
        var resample = Assert.Single((await herd.Get($"{Period}&kind=resample"))["items"].AsArray());
        Assert.Equal("2026-10-15", (string?)resample!["date"]);
    }

    [Fact]
    public async Task Pregnant_cancels_and_dates_confirmation_dry_off_and_calving()
    {
        await using var host = new ApiHostFixture();
        var herd = await Herd(host);
        await Result(herd, "pregnant");
        Assert.Equal(["2026-10-05 07:00 gnrh done"], await Steps(herd));
        Assert.Equal(3, (await Steps(herd, "&include=cancelled")).Count(s => s.EndsWith(" cancelled", StringComparison.Ordinal)));
        var ahead = (await herd.Get("/work-calendar?from=2026-10-09&to=2027-07-01"))["items"].AsArray().Select(i => $"{i!["date"]} {i["kind"]}").ToList();
        // 10 September + 279 days; 60 days before; blood from day 74, drawn on the first sampling day.
        Assert.Contains("2027-06-16 calving-due", ahead);
        Assert.Contains("2027-04-17 dry-off", ahead);
        Assert.Contains("2026-11-23 confirmation", ahead);
    }

    [Fact]
    public async Task A_service_on_oestrus_cancels_the_plan_and_starts_anew()
    {
        await using var host = new ApiHostFixture();
        var herd = await Herd(host);
        await herd.Put("//testing/clock", """{"now":"2026-10-07T20:00:00Z"}""");
        await herd.Accept("""[{"sourceId":"s-2","kind":"insemination","animal":"1042","date":"2026-10-07","time":"10:00"}]""");
        Assert.All(await Steps(herd), s => Assert.DoesNotContain("pgf", s, StringComparison.Ordinal));
        var next = (await herd.Get("/work-calendar?from=2026-10-19&to=2026-11-30&kind=step"))["items"].AsArray().Select(i => $"{i!["date"]} {i["step"]} {i["state"]}");
        Assert.Equal(["2026-11-02 gnrh firm", "2026-11-09 pgf conditional", "2026-11-11 gnrh conditional", "2026-11-12 inseminate conditional"], next);
    }

    [Fact]
    public async Task Without_approval_every_drug_step_waits_for_it()
    {
        await using var host = new ApiHostFixture();
        var herd = await Herd(host, approved: false);
        Assert.All(await Steps(herd), s => Assert.EndsWith("awaiting-approval awaiting-approval", s, StringComparison.Ordinal));
        await Result(herd, "open");
        Assert.All((await Steps(herd)).Where(s => s.Contains("pgf", StringComparison.Ordinal)), s => Assert.EndsWith("awaiting-approval", s, StringComparison.Ordinal));
        Assert.Equal("awaiting-approval", (string?)(await herd.Get("/animals/1042/test-window"))["gate"]["pgf"]!["clause"]);
    }

    [Fact]
    public async Task Prostaglandin_recorded_in_a_cow_not_known_open_raises_alert_and_conflict()
    {
        await using var host = new ApiHostFixture();
        var herd = await Herd(host);
        var posted = await herd.Post("/facts", """[{"sourceId":"t-1","kind":"treatment","animal":"1042","date":"2026-10-05","time":"06:30","agent":"pgf"}]""");
        Assert.Contains("T7 g", posted.Results[0]!["warnings"]!.ToJsonString(), StringComparison.Ordinal);
        Assert.Equal("conflict", (string?)(await herd.Get("/animals/1042/test-window"))["status"]);
        Assert.Contains((await herd.Get($"{Period}&kind=alert"))["items"].AsArray(), i => (string?)i!["date"] == "2026-10-05");
        Assert.DoesNotContain(await Steps(herd), s => s.Contains("pgf firm", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Csv_carries_the_caution_on_every_line()
    {
        await using var host = new ApiHostFixture();
        var herd = await Herd(host);
        var csv = await herd.Get(Period, "text/csv");
        Assert.Equal("text/csv", csv.MediaType);
        var lines = csv.Text.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(8, lines.Length);
        Assert.All(lines.Skip(1), l => Assert.Contains("sharps container", l, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("?from=2026-10-18&to=2026-10-05", "to")]
    [InlineData("?kind=milking", "kind")]
    [InlineData("?include=everything", "include")]
    [InlineData("?from=2026-02-30", "from")]
    [InlineData("?week=40", "week")]
    public async Task A_wrong_question_names_what_is_wrong(string query, string field)
    {
        await using var host = new ApiHostFixture();
        var herd = await Herd(host);
        var answer = await herd.Get("/work-calendar" + query);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Contains(answer["errors"].AsArray(), e => (string?)e!["field"] == field);
    }

    [Fact]
    public async Task As_known_before_it_is_what_was_answered_then()
    {
        await using var host = new ApiHostFixture();
        var herd = await Herd(host);
        var before = JsonNode.Parse((await herd.Get(Period)).Text);
        await Result(herd, "open");
        var then = JsonNode.Parse((await herd.Get($"{Period}&knownAt={ApiHostFixture.Start}")).Text);
        Assert.True(JsonNode.DeepEquals(before, then));
    }
}
