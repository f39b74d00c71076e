using System.Net;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Feeds;

/// <summary>The calendar feed, read back by a reader of our own and by the library that wrote it.</summary>
public sealed class FeedTests
{
    private const string Cows = """
        [{"sourceId":"a-1","kind":"animal","animal":"1042","breed":"Holstein","parity":1,"pen":"4, north; \"old\" barn – Ünterstall für ältere Kühe und Färsen"},
         {"sourceId":"c-1","kind":"calving","animal":"1042","date":"2026-07-01"},
         {"sourceId":"s-1","kind":"insemination","animal":"1042","date":"2026-09-10","time":"08:00"}]
        """;

    private static async Task<(HerdClient Herd, string Path)> Herd(ApiHostFixture host, string style = "item")
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(Cows);
        await herd.Put("/programme", """{"inForceFrom":"2026-09-01"}""");
        await herd.Post("/programme/approvals", """{"version":1}""");
        var link = await herd.Post("/calendar-links", $$"""{"name":"Dr. Fields","style":"{{style}}"}""");
        Assert.Equal(HttpStatusCode.Created, link.Status);
        var address = (string)link["address"]!;
        return (herd, address[address.IndexOf("/work-calendar.ics", StringComparison.Ordinal)..]);
    }

    [Fact]
    public async Task The_feed_holds_every_item_with_the_right_instants()
    {
        await using var host = new ApiHostFixture();
        var (herd, path) = await Herd(host);
        var feed = await herd.Get(path);
        Assert.Equal("text/calendar", feed.MediaType);
        var entries = IcsReader.Read(feed.Text);
        var items = (await herd.Get("/work-calendar?from=2026-09-21&to=2027-01-04"))["items"].AsArray();
        Assert.Equal(
            items.Select(i => (string)i!["id"]!).Order(StringComparer.Ordinal),
            entries.Select(e => e["UID"][..15]).Order(StringComparer.Ordinal));
        var pgf = Assert.Single(entries, e => e["SUMMARY"].StartsWith("Prostaglandin", StringComparison.Ordinal));
        // 07:00 in Chicago on 12 October is 12:00 UTC.
        Assert.Equal("20261012T120000Z", pgf["DTSTART"]);
        Assert.Contains("only if her result says open", pgf["SUMMARY"], StringComparison.Ordinal);
        Assert.Contains("asthma", pgf["DESCRIPTION"], StringComparison.Ordinal);
        Assert.Contains("pen 4, north; \"old\" barn – Ünterstall", pgf["SUMMARY"], StringComparison.Ordinal);
        var draw = Assert.Single(entries, e => e["SUMMARY"].StartsWith("Draw blood", StringComparison.Ordinal));
        Assert.Equal(("20261008", "20261009"), (draw["DTSTART;VALUE=DATE"], draw["DTEND;VALUE=DATE"]));
        var read = Ical.Net.Calendar.Load(feed.Text)!;
        Assert.Equal(entries.Select(e => e["UID"]).Order(StringComparer.Ordinal), read.Events.Select(e => e.Uid!).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Two_feeds_of_the_same_facts_are_the_same_to_the_letter()
    {
        await using var host = new ApiHostFixture();
        var (herd, path) = await Herd(host);
        var first = await herd.Get(path);
        await herd.Put("//testing/clock", """{"now":"2026-10-05T15:00:00Z"}""");
        Assert.Equal(first.Text, (await herd.Get(path)).Text);
    }

    [Fact]
    public async Task Cancelled_work_stays_as_cancelled_under_its_own_identity()
    {
        await using var host = new ApiHostFixture();
        var (herd, path) = await Herd(host);
        var before = IcsReader.Read((await herd.Get(path)).Text).Single(e => e["SUMMARY"].StartsWith("Prostaglandin", StringComparison.Ordinal));
        await herd.Put("//testing/clock", """{"now":"2026-10-09T23:00:00Z"}""");
        await herd.Post("/test-results", """[{"sourceId":"r","animal":"1042","sampled":"2026-10-08","method":"blood","outcome":"pregnant"}]""");
        var after = IcsReader.Read((await herd.Get(path)).Text).Single(e => e["UID"] == before["UID"]);
        Assert.Equal(("CONFIRMED", "CANCELLED"), (before["STATUS"], after["STATUS"]));
        Assert.NotEqual(before["DTSTAMP"], after["DTSTAMP"]);
    }

    [Fact]
    public async Task By_day_there_is_one_entry_a_day_with_counts()
    {
        await using var host = new ApiHostFixture();
        var (herd, path) = await Herd(host, "day");
        var entries = IcsReader.Read((await herd.Get(path)).Text);
        Assert.Equal(entries.Count, entries.Select(e => e["DTSTART;VALUE=DATE"]).Distinct().Count());
        Assert.Contains(entries, e => e["SUMMARY"] == "Draw blood 1, Send samples off 1");
    }

    [Fact]
    public async Task A_revoked_or_wrong_secret_and_a_foreign_herd_look_the_same()
    {
        await using var host = new ApiHostFixture { Environment = "Production" };
        var made = await host.Store.Keys.Create("manager", Records.KeyRole.Manager, null, NodaTime.Instant.FromUtc(2026, 10, 5, 12, 0));
        var client = host.CreateClient();
        client.DefaultRequestHeaders.Authorization = new("Bearer", made.Secret);
        var herd = new HerdClient(client, "/locations/farm/feed-a");
        await herd.Put("", """{"name":"A","timeZone":"Europe/Berlin"}""");
        await new HerdClient(client, "/locations/farm/feed-b").Put("", """{"name":"B","timeZone":"Europe/Berlin"}""");
        var address = (string)(await herd.Post("/calendar-links", """{"name":"phone"}"""))["address"]!;
        var path = address[address.IndexOf("/work-calendar.ics", StringComparison.Ordinal)..];
        var stranger = new HerdClient(host.CreateClient(), "/locations/farm/feed-a");
        Assert.Equal(HttpStatusCode.OK, (await stranger.Get(path)).Status);
        Assert.Equal(HttpStatusCode.Unauthorized, (await stranger.Get("/work-calendar.ics")).Status);
        var wrong = await stranger.Get(path + "x");
        var foreign = await new HerdClient(host.CreateClient(), "/locations/farm/feed-b").Get(path);
        var missing = await new HerdClient(host.CreateClient(), "/locations/farm/feed-c").Get(path);
        await herd.Post("/calendar-links/1/revoke", "{}");
        var revoked = await stranger.Get(path);
        Assert.All([wrong, foreign, missing, revoked], a => Assert.Equal((HttpStatusCode.NotFound, wrong.Text), (a.Status, a.Text)));
        Assert.DoesNotContain("rl_", (await herd.Get("/calendar-links")).Text, StringComparison.Ordinal);
    }
}
