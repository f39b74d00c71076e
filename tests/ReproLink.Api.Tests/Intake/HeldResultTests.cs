using System.Net;
using ReproLink.Api.Tests.Rounds;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Intake;

public sealed class HeldResultTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private static async Task<string> Hold(HerdClient herd, string rest)
    {
        var answer = await herd.Post("/test-results", $$"""[{"sourceId":"r","sampled":"2026-10-05",{{rest}}}]""");
        Assert.Equal("held", (string?)answer.Results[0]!["status"]);
        return (string)answer.Results[0]!["heldId"]!;
    }

    private const string Mismatch = "\"animal\":\"3\",\"tube\":\"R1-002\",\"outcome\":\"open\"";

    [Fact]
    public async Task Get_TellsWhoseItMayBeAndWhy()
    {
        var herd = await RoundHerd.Drawn(host, 12);
        var id = await Hold(herd, Mismatch);
        var held = (await herd.Get("/held-results"))["held"][0]!;
        Assert.Equal(id, (string?)held["heldId"]);
        Assert.Equal("""["2","3"]""", held["closes"]!.ToJsonString());
        Assert.Equal(["2", "3"], held["candidates"]!.AsArray().Take(2).Select(c => (string?)c!["animal"]));
        Assert.Contains(held["candidates"]![0]!["reasons"]!.AsArray(), r => ((string)r!).Contains("the label of R1-002 is hers, drawn on 2026-10-05", StringComparison.Ordinal));
        await herd.Post("/test-results", """[{"sourceId":"slip","sampled":"2026-10-05","animal":"121","outcome":"open"}]""");
        var slip = (await herd.Get("/held-results"))["held"][0]!;
        Assert.Contains(slip["candidates"]!.AsArray(), c => (string?)c!["animal"] == "12" && ((string)c["reasons"]![0]!).Contains("one slip", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Assign_ToTheAnimalOfTheLabel_BecomesAFactAndCanBeUndone()
    {
        var herd = await RoundHerd.Drawn(host, 3);
        var id = await Hold(herd, Mismatch);
        var answer = await herd.Post($"/held-results/{id}/assign", """{"animal":"2"}""");
        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
        Assert.Equal("open", (string?)answer["decides"]);
        Assert.Equal("open", (string?)(await herd.Get("/animals/2/test-window"))["status"]);
        Assert.Single((await herd.Get($"/received?fact={answer["factId"]}"))["lines"].AsArray());
        Assert.Equal(HttpStatusCode.Conflict, (await herd.Post($"/held-results/{id}/assign", """{"animal":"2"}""")).Status);

        var undone = await herd.Post($"/held-results/{id}/reopen", """{"reason":"looked again"}""");
        Assert.Equal("reopened", (string?)undone["status"]);
        Assert.Equal("awaiting-test", (string?)(await herd.Get("/animals/2/test-window"))["status"]);
        Assert.Equal("held-result", (string?)(await herd.Get("/animals/2/test-window"))["gate"]["pgf"]!["clause"]);
        Assert.Equal((string?)undone["heldId"], (string?)(await herd.Get("/held-results"))["held"].AsArray().Single()!["heldId"]);
        Assert.Equal(HttpStatusCode.Conflict, (await herd.Post($"/held-results/{id}/reopen", """{"reason":"again"}""")).Status);
        // The second time it is settled it is found by its fact too.
        var again = await herd.Post($"/held-results/{undone["heldId"]}/assign", """{"animal":"2"}""");
        Assert.Single((await herd.Get($"/received?fact={again["factId"]}"))["lines"].AsArray());
        Assert.Equal(["assigned", "assigned"], (await herd.Get("/held-results?state=settled"))["held"].AsArray().Select(h => (string?)h!["ended"]!["ending"]));
    }

    [Theory]
    [InlineData("""{"animal":"3"}""", 409)]
    [InlineData("""{"animal":"3","tube":"R1-001"}""", 409)]
    [InlineData("""{"animal":"3","tube":"R1-099"}""", 409)]
    [InlineData("""{"animal":"2","sampled":"2026-10-04"}""", 409)]
    [InlineData("""{"animal":"3","tube":"R1-003"}""", 200)]
    [InlineData("""{"animal":"99"}""", 400)]
    [InlineData("""{"animal":"2","outcome":"pregnant"}""", 400)]
    [InlineData("""{}""", 400)]
    public async Task Assign_AgainstTheLabel_IsRefused(string body, int status)
    {
        var herd = await RoundHerd.Drawn(host, 3);
        var id = await Hold(herd, Mismatch);
        Assert.Equal(status, (int)(await herd.Post($"/held-results/{id}/assign", body)).Status);
        Assert.Equal(status == 200 ? 0 : 1, (await herd.Get("/held-results"))["held"].AsArray().Count);
    }

    [Fact]
    public async Task Assign_WithoutAnOutcome_NeedsOneBeforeTheGateOpens()
    {
        var herd = await RoundHerd.Drawn(host, 1);
        var id = await Hold(herd, "\"tube\":\"R1-001\",\"value\":7,\"unit\":\"ng\",\"assay\":\"other\"");
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Post($"/held-results/{id}/assign", """{"animal":"1"}""")).Status);
        Assert.Equal("pregnant", (string?)(await herd.Post($"/held-results/{id}/assign", """{"animal":"1","outcome":"pregnant"}"""))["decides"]);
    }

    [Fact]
    public async Task Dismiss_NeedsAReasonAndCanBeUndone()
    {
        var herd = await RoundHerd.Drawn(host, 3);
        var id = await Hold(herd, Mismatch);
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Post($"/held-results/{id}/dismiss", "{}")).Status);
        Assert.Equal(HttpStatusCode.OK, (await herd.Post($"/held-results/{id}/dismiss", """{"reason":"another herd"}""")).Status);
        Assert.NotEqual("held-result", (string?)(await herd.Get("/animals/2/test-window"))["gate"]["pgf"]!["clause"]);
        Assert.Equal("another herd", (string?)(await herd.Get($"/held-results/{id}"))["ended"]["note"]);
        Assert.Equal(HttpStatusCode.OK, (await herd.Post($"/held-results/{id}/reopen", """{"reason":"ours after all"}""")).Status);
        Assert.Equal("held-result", (string?)(await herd.Get("/animals/2/test-window"))["gate"]["pgf"]!["clause"]);
        Assert.Equal(HttpStatusCode.NotFound, (await herd.Post("/held-results/h_0000000000000/dismiss", """{"reason":"x"}""")).Status);
    }

    [Fact]
    public async Task Assign_WithAnIdempotencyKey_IsAnsweredTheSameAgain()
    {
        var herd = await RoundHerd.Drawn(host, 3);
        var id = await Hold(herd, Mismatch);
        var first = await herd.Post($"/held-results/{id}/assign", """{"animal":"2"}""", idempotencyKey: "k");
        var again = await herd.Post($"/held-results/{id}/assign", """{"animal":"2"}""", idempotencyKey: "k");
        Assert.Equal((HttpStatusCode.OK, first.Text), (again.Status, again.Text));
        Assert.Equal(HttpStatusCode.Conflict, (await herd.Post($"/held-results/{id}/assign", """{"animal":"3","tube":"R1-003"}""", idempotencyKey: "k")).Status);
    }

    [Fact]
    public async Task Decisions_AreNotForExchangePrograms()
    {
        var herd = await RoundHerd.Drawn(host, 3);
        var id = await Hold(herd, Mismatch);
        var (secret, _) = await host.Store.Keys.Create($"app-{Guid.NewGuid()}", KeyRole.Exchange, null, NodaTime.Instant.FromUtc(2026, 10, 5, 0, 0));
        var app = herd.With(host, secret);
        Assert.Equal(HttpStatusCode.Forbidden, (await app.Post($"/held-results/{id}/assign", """{"animal":"2"}""")).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await app.Post($"/held-results/{id}/dismiss", """{"reason":"x"}""")).Status);
    }
}
