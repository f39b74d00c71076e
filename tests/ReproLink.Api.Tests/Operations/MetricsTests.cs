using System.Net;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Operations;

/// <summary>What a watcher reads: enough to see trouble coming, and nothing of any herd.</summary>
public sealed class MetricsTests
{
    private static readonly NodaTime.Instant Made = NodaTime.Instant.FromUtc(2026, 10, 1, 0, 0);

    [Fact]
    public async Task Metrics_CountRequestsByRoute_AndNameNoAnimalAndNoHerd()
    {
        await using var host = new ApiHostFixture();
        var herd = new HerdClient(host.CreateClient(), "/locations/farm/quillfarm");
        await herd.Put("", """{"name":"Marrowdale","timeZone":"America/Chicago"}""");
        await herd.Accept("""[{"sourceId":"1","kind":"insemination","animal":"hexacow","date":"2026-09-10"}]""");
        await herd.Post("/test-results", """[{"sourceId":"2","animal":"hexaghost","sampled":"2026-10-05","outcome":"open"}]""");
        await herd.Get("/animals/hexacow/test-window");
        await herd.Get("/animals/hexacow/test-window");
        await herd.Get("/hexanowhere");
        await herd.Send(new HttpMethod("HEXA"), "/facts", null, null);
        await herd.With(host, "hexakey").Get("/facts");

        string[] lines =
        [
            """reprolink_request_duration_seconds_count{method="GET",route="/locations/{scheme}/{id}/animals/{animal}/test-window",status="200"} 2""",
            """reprolink_request_duration_seconds_count{method="GET",route="none",status="404"} 1""",
            """reprolink_request_duration_seconds_count{method="other",route="none",status="405"} 1""",
            "reprolink_wrong_keys_total 1",
            "reprolink_requests_limited_total 0",
            "reprolink_writes_waiting 0",
            "reprolink_facts_in_memory 1",
            "reprolink_results_held 1",
        ];
        var answer = await herd.Get("//metrics");
        // A request is counted after it was answered.
        for (var i = 0; i < 600 && !Array.TrueForAll(lines, line => answer.Text.Contains(line + "\n", StringComparison.Ordinal)); i++)
        {
            await Task.Delay(50);
            answer = await herd.Get("//metrics");
        }

        Assert.Equal((HttpStatusCode.OK, "text/plain"), (answer.Status, answer.MediaType));
        Assert.All(lines, line => Assert.Contains(line + "\n", answer.Text, StringComparison.Ordinal));

        foreach (var name in new[] { "reprolink_writes_total", "reprolink_write_transactions_total", "reprolink_folds_total", "reprolink_database_bytes" })
        {
            Assert.DoesNotContain($"\n{name} 0\n", answer.Text, StringComparison.Ordinal);
            Assert.Contains($"\n{name} ", answer.Text, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("hexa", answer.Text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("quillfarm", answer.Text, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("Marrowdale", answer.Text, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Metrics_AreForAKeyThatSeesAll()
    {
        await using var host = new ApiHostFixture { Environment = "Production" };
        var service = new HerdClient(host.CreateClient(), "");
        var reader = service.With(host, (await host.Store.Keys.Create("watcher", KeyRole.Reader, null, Made)).Secret);
        var bound = service.With(host, (await host.Store.Keys.Create("bound", KeyRole.Manager, [new LocationKey("farm", "x")], Made)).Secret);
        Assert.Equal(HttpStatusCode.Unauthorized, (await service.Get("/metrics")).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await bound.Get("/metrics")).Status);
        Assert.Equal(HttpStatusCode.OK, (await reader.Get("/metrics")).Status);
    }

    [Fact]
    public async Task Metrics_OpenedBySetting_NeedNoKey()
    {
        await using var host = new ApiHostFixture { Environment = "Production", Settings = new Dictionary<string, string> { ["Metrics:Open"] = "true" } };
        Assert.Equal(HttpStatusCode.OK, (await new HerdClient(host.CreateClient(), "").Get("/metrics")).Status);
    }

    [Fact]
    public async Task StoreThatFailed_IsNotReady_AndStillLives()
    {
        await using var host = new ApiHostFixture();
        var service = new HerdClient(host.CreateClient(), "");
        Assert.Equal(HttpStatusCode.OK, (await service.Get("/health/ready")).Status);
        await host.Store.DisposeAsync();
        Assert.Equal((HttpStatusCode.ServiceUnavailable, "/problems/unavailable"), ((await service.Get("/health/ready")) is var ready ? (ready.Status, (string?)ready.Json?["type"]) : default));
        Assert.Equal(HttpStatusCode.OK, (await service.Get("/health/live")).Status);
    }
}
