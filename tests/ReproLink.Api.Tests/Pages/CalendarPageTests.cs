using System.Net;
using System.Text.RegularExpressions;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Pages;

/// <summary>The veterinarian's calendar: approving, refusing, links, and what changed since the last visit.</summary>
public sealed partial class CalendarPageTests
{
    [GeneratedRegex("Fell away: [0-9]+ lines? of work, 1 animal")]
    private static partial Regex FellAway();

    private static Task<Answer> Clock(HerdClient herd, string now) => herd.Put("//testing/clock", $$"""{"now":"{{now}}"}""");

    private static async Task<string> Calendar(PageClient browser, string pages)
    {
        var page = await browser.Get($"{pages}/calendar");
        Assert.Equal(HttpStatusCode.OK, page.Status);
        return page.Html;
    }

    [Fact]
    public async Task A_refusal_with_a_note_withholds_prostaglandin_until_the_next_approval_and_the_manager_reads_it()
    {
        await using var host = new ApiHostFixture();
        var (herd, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        Assert.Equal("firm", await PageHerd.State(herd, "pgf"));

        var form = PageClient.Hidden(await Calendar(browser, pages), $"{pages}/calendar/refuse");
        var empty = await browser.Post($"{pages}/calendar/refuse", [.. form, ("note", " ")]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, empty.Status);
        Assert.Contains("refuse-note-problem", empty.Html, StringComparison.Ordinal);
        Assert.Equal("firm", await PageHerd.State(herd, "pgf"));

        Assert.Equal($"{pages}/calendar?notice=refused", (await browser.Post($"{pages}/calendar/refuse", [.. form, ("note", "no dose on a Sunday")])).Location);
        Assert.Equal("awaiting-approval awaiting-approval", await PageHerd.State(herd, "pgf"));
        Assert.Contains("no dose on a Sunday", await Calendar(browser, pages), StringComparison.Ordinal);
        var version = (await herd.Get("/programme/versions"))["versions"][0]!;
        Assert.Equal(("false", "no dose on a Sunday"), (version["approved"]!.ToString(), (string?)version["refusals"]![0]!["note"]));

        var approve = PageClient.Hidden(await Calendar(browser, pages), $"{pages}/calendar/approve");
        var past = await browser.Post($"{pages}/calendar/approve", [.. approve, ("expires", "2026-10-04")]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, past.Status);
        Assert.Contains("value=\"2026-10-04\"", past.Html, StringComparison.Ordinal);
        Assert.Equal($"{pages}/calendar?notice=approved", (await browser.Post($"{pages}/calendar/approve", [.. approve, ("expires", "2027-10-04")])).Location);
        Assert.Equal("firm", await PageHerd.State(herd, "pgf"));
    }

    [Fact]
    public async Task What_changed_is_told_against_the_calendar_as_it_was_known_at_the_last_visit()
    {
        await using var host = new ApiHostFixture();
        var (herd, pages) = await PageHerd.Create(host);
        await herd.Accept("""
            [{"sourceId":"a-2","kind":"animal","animal":"1043","parity":1,"pen":"4"},
             {"sourceId":"c-2","kind":"calving","animal":"1043","date":"2026-06-01"},
             {"sourceId":"s-2","kind":"insemination","animal":"1043","date":"2026-09-07"}]
            """);
        using var browser = new PageClient(host);
        Assert.Contains("This is your first visit", await Calendar(browser, pages), StringComparison.Ordinal);
        // Within the visit nothing is compared with a look of the same visit, whatever comes in meanwhile is shown.
        await Clock(herd, "2026-10-05T13:00:00Z");
        await herd.Accept("""[{"sourceId":"s-3","kind":"insemination","animal":"1042","date":"2026-10-05"}]""");
        var soon = await Calendar(browser, pages);
        Assert.True(FellAway().IsMatch(soon), soon[soon.IndexOf("class=\"since\"", StringComparison.Ordinal)..][..2500]);

        // A day later, another visit: compared with the last look of the first.
        await Clock(herd, "2026-10-06T13:00:00Z");
        await herd.Post("/test-results", """[{"sourceId":"lab-2","animal":"1043","sampled":"2026-10-06","method":"blood","outcome":"pregnant"}]""");
        await Clock(herd, "2026-10-06T13:05:00Z");
        var later = await Calendar(browser, pages);
        Assert.Contains("Changed since you looked on 5 Oct 2026 08:00", later, StringComparison.Ordinal);
        Assert.Contains("New results and findings: 1", later, StringComparison.Ordinal);
        Assert.Matches(FellAway(), later);
        Assert.Contains("/animals/1043\">1043</a>: Draw blood, was Thu 8 Oct; Prostaglandin, was Mon 12 Oct 07:00", later, StringComparison.Ordinal);
        Assert.DoesNotContain("1042</a>: Prostaglandin", later, StringComparison.Ordinal);

        // Loaded again it says the same; marked as seen it does not.
        Assert.Contains("New results and findings: 1", await Calendar(browser, pages), StringComparison.Ordinal);
        Assert.Equal($"{pages}/calendar?notice=seen", (await browser.Post($"{pages}/calendar/seen", PageClient.Hidden(later, $"{pages}/calendar/seen"))).Location);
        Assert.Contains("Nothing changed.", await Calendar(browser, pages), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_link_is_made_shown_once_and_revoked()
    {
        await using var host = new ApiHostFixture();
        var (herd, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        // The address of the form carries where it is shown again.
        var token = PageClient.Hidden(await Calendar(browser, pages), $"{pages}/calendar/links#links");
        var made = await browser.Post($"{pages}/calendar/links", [.. token, ("name", "Dr Fields, phone"), ("style", "day")]);
        Assert.Contains($"{herd.Address}/work-calendar.ics?link=rl_", made.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("?link=rl_", await Calendar(browser, pages), StringComparison.Ordinal);
        var twice = await browser.Post($"{pages}/calendar/links", [.. token, ("name", "Dr Fields, phone")]);
        Assert.Contains("link-name-problem", twice.Html, StringComparison.Ordinal);

        var revoke = PageClient.Hidden(await Calendar(browser, pages), $"{pages}/calendar/links/revoke");
        await browser.Post($"{pages}/calendar/links/revoke", revoke);
        Assert.DoesNotContain("Dr Fields, phone", await Calendar(browser, pages), StringComparison.Ordinal);
    }
}
