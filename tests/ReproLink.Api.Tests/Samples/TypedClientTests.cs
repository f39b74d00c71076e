using ReproLink.Client;

namespace ReproLink.Api.Tests.Samples;

/// <summary>The program in docs/ whose client is made from the API document posts results to the real demo and reads what they decide.</summary>
[Collection(nameof(Samples))]
public sealed class TypedClientTests
{
    private static readonly string Sample = typeof(ReproLinkClient).Assembly.Location;

    [Fact]
    public async Task The_generated_client_posts_results_and_reads_the_work_that_comes_of_them()
    {
        await using var demo = await DemoProcess.Start(DemoProcess.OnMonday);
        var due = await FirstTestsDue(demo);
        var lines = await SampleProcess.Run("dotnet", Sample, demo.Location);

        Assert.Contains($"20261005-{due[0]}: Accepted, {due[0]} decides Open", lines);
        Assert.Contains($"20261005-{due[1]}: Accepted, {due[1]} decides Pregnant", lines);
        Assert.Contains($"20261005-{due[2]}: Accepted, {due[2]} decides Recheck", lines);
        Assert.Contains("20261005-tube: held for a person, UnknownTube", lines);
        Assert.Contains("20261005-slip: rejected, sampled may be at most 1 day after the herd's today, 2026-10-05", lines);
        Assert.Contains("sent again: the same answer", lines);
        Assert.Contains("refused: 409 The idempotency key was used with another body", lines);
        Assert.Contains("to is 2026-10-04; allowed: from 'from', 2026-10-05, to 366 days after it", lines);
        Assert.DoesNotContain("not refused", lines);

        // What it printed is what the service holds.
        string[] statuses = ["open", "pregnant", "recheck"];
        Assert.Equal(statuses, await Task.WhenAll(due.Select(async animal => (string?)(await demo.Get($"/animals/{animal}/test-window"))["status"])));
        Assert.Contains((await demo.Get("/held-results"))["held"]!.AsArray(), held => (string?)held!["sourceId"] == "20261005-tube");
        Assert.Contains(lines, line => line.EndsWith($" {due[0]} Pgf: Firm", StringComparison.Ordinal));
        Assert.DoesNotContain(lines, line => line.EndsWith($" {due[1]} Pgf: Firm", StringComparison.Ordinal) || line.EndsWith($" {due[2]} Pgf: Firm", StringComparison.Ordinal));
        var cautions = (await demo.Get("/work-calendar"))["cautions"]!.AsArray();
        Assert.Equal(cautions.Select(caution => $"caution: {caution}"), lines.Where(line => line.StartsWith("caution:", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task A_location_that_is_not_there_is_told_and_ends_it()
    {
        await using var demo = await DemoProcess.Start(DemoProcess.OnMonday);
        await using var sample = SampleProcess.Start("dotnet", Sample, demo.Address + "/locations/demo/nowhere");
        Assert.Equal("refused: 404 There is no such location", await sample.Until("refused"));
    }

    private static async Task<string[]> FirstTestsDue(DemoProcess demo) => (await demo.Get("/bleed-list"))["days"]!.AsArray()
        .SelectMany(day => day!["animals"]!.AsArray())
        .Where(animal => (string?)animal!["need"] == "first-test" && string.CompareOrdinal((string?)animal["window"]!["opens"], "2026-10-05") <= 0)
        .Select(animal => (string)animal!["animal"]!)
        .Take(3)
        .ToArray();
}
