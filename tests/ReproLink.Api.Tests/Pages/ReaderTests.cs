using System.Net;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Pages;

/// <summary>How somebody reads: her choice is kept by her browser, and every page follows it.</summary>
public sealed class ReaderTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private const string Path = "/settings";

    private static (string Name, string Value)[] Choice(string language = "en", string dates = "DayFirst", string weekStart = "Monday", string clock = "24") =>
        [("language", language), ("dates", dates), ("weekStart", weekStart), ("clock", clock), ("do", "save")];

    private static async Task<(HttpStatusCode Status, string Html, string? Location, IReadOnlyList<string> Cookies)> Send(PageClient browser, params (string, string)[] fields)
    {
        var page = await browser.Get(Path);
        return await browser.Post(Path, [.. PageClient.Hidden(page.Html, Path), .. fields]);
    }

    [Fact]
    public async Task The_choice_is_kept_for_a_year_and_said_so()
    {
        using var browser = new PageClient(host);
        var saved = await Send(browser, Choice(language: "de", dates: "YearFirst", weekStart: "Sunday", clock: "12"));
        var cookie = Assert.Single(saved.Cookies, c => c.StartsWith("reprolink-reader=de.YearFirst.Sunday.12;", StringComparison.Ordinal));
        Assert.All(["max-age=31536000", "path=/", "samesite=lax", "httponly"], part => Assert.Contains(part, cookie, StringComparison.OrdinalIgnoreCase));
        Assert.Equal(HttpStatusCode.Redirect, saved.Status);
        var page = WebUtility.HtmlDecode((await browser.Get(saved.Location!)).Html);
        Assert.Contains("Saved: this browser shows dates and times so for a year.", page, StringComparison.Ordinal);
        Assert.Contains("Dates and times are now written so: Montag, 2026-10-05, 7:00 am, 7:30 pm.", page, StringComparison.Ordinal);
        Assert.Contains("<html lang=\"en\">", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("en", "DayFirst", "Monday 5 October 2026")]
    [InlineData("en", "MonthFirst", "Monday, October 5, 2026")]
    [InlineData("en", "YearFirst", "Monday 2026-10-05")]
    [InlineData("de", "DayFirst", "Montag, 5. Oktober 2026")]
    public async Task The_pages_of_a_herd_write_dates_and_clock_as_chosen(string language, string dates, string monday)
    {
        var (_, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        await Send(browser, Choice(language, dates, clock: "12"));
        var today = WebUtility.HtmlDecode((await browser.Get($"{pages}/today?on=2026-10-05")).Html);
        Assert.Contains($"Work of {monday}", today, StringComparison.Ordinal);
        Assert.Contains("value=\"2026-10-05\"", today, StringComparison.Ordinal);
        Assert.Matches(@"data-label=""Time"">\d{1,2}:\d\d [ap]m<", today);
    }

    [Theory]
    [InlineData("Monday", "Mon 5 Oct – Sun 11 Oct")]
    [InlineData("Sunday", "Mon 5 Oct – Sat 10 Oct")]
    [InlineData("Saturday", "Mon 5 Oct – Fri 9 Oct")]
    public async Task A_week_of_the_calendar_ends_before_the_day_hers_begins_with(string weekStart, string first)
    {
        var (_, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        await Send(browser, Choice(weekStart: weekStart));
        Assert.Contains(first, WebUtility.HtmlDecode((await browser.Get($"{pages}/calendar?from=2026-10-05")).Html), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("language", "xx", "English, Deutsch")]
    [InlineData("dates", "2", "day first, month first, year first")]
    [InlineData("weekStart", "Tuesday", "Monday, Sunday, Saturday")]
    [InlineData("clock", "13", "24 hours, 12 hours")]
    public async Task What_is_no_choice_is_refused_at_its_field_with_what_is_allowed(string field, string value, string allowed)
    {
        using var browser = new PageClient(host);
        var refused = await Send(browser, [.. Choice().Where(f => f.Name != field), (field, value)]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.DoesNotContain(refused.Cookies, c => c.StartsWith("reprolink-reader", StringComparison.Ordinal));
        Assert.Contains($"id=\"{field}-problem\" class=\"problem\" role=\"alert\">“{value}” cannot be used here. Allowed: {allowed}.", WebUtility.HtmlDecode(refused.Html), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de-AT,en;q=0.5", "Montag")]
    [InlineData("en;q=0.4,de;q=0.9", "Montag")]
    [InlineData("fr,en;q=0.2", "Monday")]
    [InlineData("de;q=0", "Monday")]
    [InlineData(";;==,", "Monday")]
    public async Task Without_a_choice_the_browser_says_the_language(string wanted, string weekday)
    {
        using var browser = new PageClient(host);
        Assert.Contains($"written so: {weekday}", (await browser.Get(Path, ("Accept-Language", wanted))).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_choice_goes_before_the_browser_until_it_is_removed()
    {
        using var browser = new PageClient(host);
        await Send(browser, Choice());
        Assert.Contains("written so: Monday", (await browser.Get(Path, ("Accept-Language", "de"))).Html, StringComparison.Ordinal);
        var removed = await Send(browser, ("do", "browser"));
        Assert.Contains(removed.Cookies, c => c.StartsWith("reprolink-reader=;", StringComparison.Ordinal));
        Assert.Contains("written so: Montag", (await browser.Get(Path, ("Accept-Language", "de"))).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_page_says_that_it_hangs_on_who_reads_it_and_a_file_of_its_does_not()
    {
        using var client = host.CreateClient();
        using var page = await client.GetAsync(new Uri(Path, UriKind.Relative));
        Assert.Superset(new HashSet<string> { "Cookie", "Accept-Language" }, page.Headers.Vary.ToHashSet());
        using var asset = await client.GetAsync(new Uri("/assets/site.css", UriKind.Relative));
        Assert.DoesNotContain("Cookie", asset.Headers.Vary);
    }

    [Fact]
    public async Task A_form_without_its_token_changes_nothing()
    {
        using var browser = new PageClient(host);
        var answer = await browser.Post(Path, Choice());
        Assert.Equal(HttpStatusCode.Forbidden, answer.Status);
        Assert.DoesNotContain(answer.Cookies, c => c.StartsWith("reprolink-reader", StringComparison.Ordinal));
    }

    // A page that says that something is not there is shown by the same browser, and shut as tightly.
    [Theory]
    [InlineData("/settings", 200)]
    [InlineData("/sign-in", 200)]
    [InlineData("/herds/farm/none/week", 404)]
    public async Task Every_page_is_protected_and_kept_by_nobody(string path, int status)
    {
        using var client = host.CreateClient();
        using var answer = await client.GetAsync(new Uri(path, UriKind.Relative));
        Assert.Equal(status, (int)answer.StatusCode);
        Assert.Contains("script-src 'self'", Assert.Single(answer.Headers.GetValues("Content-Security-Policy")), StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.True(answer.Headers.CacheControl!.NoStore);
        Assert.Contains("Cookie", answer.Headers.Vary);
    }
}
