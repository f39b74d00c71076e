using System.Net;
using NodaTime;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Pages;

/// <summary>Ticking the day's work: what happened is recorded, once, and never made to look like a permission.</summary>
public sealed class TickTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private const string Action = "/today/record";

    // The form of the prostaglandin step as the page shows it.
    private static async Task<List<(string Name, string Value)>> Form(PageClient browser, string pages)
    {
        var page = await browser.Get($"{pages}/today");
        Assert.Contains("known to be open, programme approved", page.Html, StringComparison.Ordinal);
        return PageClient.Hidden(page.Html, pages + Action);
    }

    private static List<(string, string)> With(List<(string Name, string Value)> form, params (string, string)[] more) => [.. form, .. more];

    [Fact]
    public async Task A_tick_that_comes_after_the_gate_closed_is_recorded_and_said_loudly_also_when_sent_twice()
    {
        var (herd, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        var form = With(await Form(browser, pages), ("done", "yes"));
        // The laboratory corrects itself while the page lies open.
        await herd.Post("/test-results", PageHerd.Open.Replace("\"open\"", "\"pregnant\"", StringComparison.Ordinal));

        for (var i = 0; i < 2; i++)
        {
            var sent = await browser.Post(pages + Action, form);
            Assert.Equal(HttpStatusCode.Redirect, sent.Status);
            var page = await browser.Get(sent.Location!);
            Assert.Contains("NOT released: she is not known to be open", page.Html, StringComparison.Ordinal);
            Assert.Contains("do not give it", page.Html, StringComparison.Ordinal);
            Assert.DoesNotContain("Recorded.", page.Html, StringComparison.Ordinal);
            Assert.Contains("Call the veterinarian.", page.Html, StringComparison.Ordinal);
        }

        // T7 g: what happened stands, once, and raises the conflict.
        Assert.Equal(PageHerd.BaseFacts + 1, await PageHerd.Facts(herd));
        Assert.Contains("T7 g", (await herd.Get("/animals/1042/timeline"))["conflicts"].ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_tick_sent_twice_is_one_fact_also_when_it_was_undone_in_between()
    {
        var (herd, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        var form = With(await Form(browser, pages), ("done", "yes"));
        Assert.Equal($"{pages}/today?on=2026-10-05&notice=recorded", (await browser.Post(pages + Action, form)).Location);
        Assert.Equal("done", await PageHerd.State(herd, "pgf"));
        await browser.Post(pages + Action, form);
        Assert.Equal(PageHerd.BaseFacts + 1, await PageHerd.Facts(herd));

        var page = await browser.Get($"{pages}/today");
        var undone = await browser.Post($"{pages}/today/undo", PageClient.Hidden(page.Html, $"{pages}/today/undo"));
        Assert.Equal($"{pages}/today?on=2026-10-05&notice=undone", undone.Location);
        Assert.Equal("firm", await PageHerd.State(herd, "pgf"));
        await browser.Post(pages + Action, form);
        Assert.Equal("firm", await PageHerd.State(herd, "pgf"));
        Assert.Equal(PageHerd.BaseFacts, await PageHerd.Facts(herd));

        // A tick of the page as it is now counts again.
        await browser.Post(pages + Action, With(await Form(browser, pages), ("done", "yes")));
        Assert.Equal("done", await PageHerd.State(herd, "pgf"));
    }

    [Fact]
    public async Task What_her_software_said_already_is_not_recorded_a_second_time()
    {
        var (herd, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        var form = With(await Form(browser, pages), ("done", "yes"));
        await herd.Accept("""[{"sourceId":"t-9","kind":"treatment","animal":"1042","date":"2026-10-05","time":"07:10","agent":"pgf"}]""");
        Assert.Equal($"{pages}/today?on=2026-10-05&notice=recorded-before", (await browser.Post(pages + Action, form)).Location);
        Assert.Equal(PageHerd.BaseFacts + 1, await PageHerd.Facts(herd));
    }

    [Fact]
    public async Task Done_late_takes_the_time_and_not_done_the_reason()
    {
        var (herd, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        var form = await Form(browser, pages);
        await browser.Post(pages + Action, With(form, ("done", "late"), ("date", "2026-10-05"), ("time", "06:55")));
        Assert.Contains("\"time\":\"06:55\"", (await herd.Get("/facts?animal=1042")).Text, StringComparison.Ordinal);

        // Said otherwise, it replaces what was said.
        await browser.Post(pages + Action, With(form, ("done", "no"), ("reason", "she was not in her pen")));
        Assert.Equal("missed", await PageHerd.State(herd, "pgf"));
        Assert.Contains("\"reason\":\"she was not in her pen\"", (await herd.Get("/facts?animal=1042")).Text, StringComparison.Ordinal);
        Assert.Equal(PageHerd.BaseFacts + 1, await PageHerd.Facts(herd));
    }

    [Theory]
    [InlineData("late", "2026-10-05", "", "time")]
    [InlineData("late", "2026-10-05", "25:10", "time")]
    [InlineData("late", "2026-10-09", "07:00", "date")]
    public async Task A_wrong_tick_is_told_at_its_field_and_keeps_what_was_typed(string done, string date, string time, string field)
    {
        var (herd, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        var sent = await browser.Post(pages + Action, With(await Form(browser, pages), ("done", done), ("date", date), ("time", time)));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, sent.Status);
        Assert.Matches($"""-{field}-problem" class="problem" role="alert">[^<]+""", sent.Html);
        Assert.Contains($"value=\"{date}\"", sent.Html, StringComparison.Ordinal);
        Assert.Contains($"type=\"time\" value=\"{time}\"", sent.Html, StringComparison.Ordinal);
        Assert.Equal(PageHerd.BaseFacts, await PageHerd.Facts(herd));
    }

    [Fact]
    public async Task A_key_that_may_only_read_sees_the_work_and_no_buttons_and_is_refused()
    {
        var (herd, pages) = await PageHerd.Create(host);
        var (secret, _) = await host.Store.Keys.Create($"reader {Guid.NewGuid():N}", KeyRole.Reader, null, Instant.FromUtc(2026, 10, 5, 12, 0));
        using var browser = new PageClient(host);
        (string, string)[] key = [("Authorization", $"Bearer {secret}")];
        var page = await browser.Get($"{pages}/today", key);
        Assert.Contains("1042", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("/today/record", page.Html, StringComparison.Ordinal);
        var form = await Form(browser, pages);
        Assert.Equal(HttpStatusCode.Forbidden, (await browser.Post(pages + Action, With(form, ("done", "yes")), key)).Status);
        Assert.Equal(PageHerd.BaseFacts, await PageHerd.Facts(herd));
    }
}
