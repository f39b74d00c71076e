using System.Net.Http.Json;

namespace ReproLink.Api.Tests.Samples;

/// <summary>The program in docs/ that knows our own words reads the real demo's lists and follows it.</summary>
[Collection(nameof(Samples))]
public sealed class ScheduleSampleTests
{
    [SkippableFact]
    public async Task The_schedules_of_the_herd_are_read_and_its_changes_followed()
    {
        var command = SampleProcess.Script("schedules.py");
        await using var demo = await DemoProcess.Start(DemoProcess.OnMonday);
        var lines = await SampleProcess.Run([.. command, demo.Location]);

        var list = await demo.Get("/bleed-list");
        Assert.Equal("bleed list of Larch Hollow, 2026-10-05 to 2026-10-11", lines[0]);
        Assert.All(list["days"]!.AsArray(), day => Assert.Contains($"{day!["date"]} {day["weekday"]}: {day["totals"]!["animals"]} animals, {day["totals"]!["tubes"]} tubes", lines));
        Assert.All(list["notListed"]!.AsArray(), rest => Assert.Contains($"not listed, {rest!["answer"]} {rest["reason"]}: {rest["count"]}", lines));

        var calendar = await demo.Get("/work-calendar");
        Assert.NotEmpty(calendar["cautions"]!.AsArray());
        Assert.All(calendar["cautions"]!.AsArray(), caution => Assert.Contains($"caution: {caution}", lines));
        var items = calendar["items"]!.AsArray();
        Assert.Contains($"{items.Count} items, {items.Count(item => (string?)item!["kind"] == "step")} of them steps", lines);
        Assert.Contains($"{items.Count} lines of CSV with 18 columns", lines);
        Assert.Matches("^calendar feed: [1-9][0-9]* entries, the first: .+", lines[^3]);
        var link = Assert.Single((await demo.Get("/calendar-links"))["links"]!.AsArray())!;
        Assert.NotNull(link["revoked"]);

        using var posted = await demo.Client.PostAsJsonAsync(
            new Uri(demo.Location + "/facts"), new[] { new { sourceId = "follow-1", kind = "oestrus", animal = "follow", date = "2026-10-04" } });
        Assert.True(posted.IsSuccessStatusCode);
        var cursor = lines[^1]["go on with: ".Length..];
        var since = await SampleProcess.Run([.. command, demo.Location, cursor]);
        Assert.Equal(["change: fact follow", "now: follow not-served", "1 changes read"], since[..^1]);
        Assert.NotEqual(lines[^1], since[^1]);
    }
}
