using System.Net;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Pages;

/// <summary>An animal's page: facts added and withdrawn by hand, earlier days, and the way to her.</summary>
public sealed class AnimalPageTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    [Fact]
    public async Task A_fact_is_added_by_its_own_form_once_and_what_is_wrong_is_told_at_the_field()
    {
        var (herd, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        var address = $"{pages}/animals/1042/add?kind=examination";
        var page = await browser.Get(address);
        Assert.Contains("name=\"corpusLuteum\"", page.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("name=\"sire\"", page.Html, StringComparison.Ordinal);

        var form = PageClient.Hidden(page.Html, address);
        var wrong = await browser.Post(address, [.. form, ("date", "2026-12-24"), ("method", "ultrasound"), ("outcome", ""), ("examiner", "Dr Fields")]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        Assert.Contains("f-date-problem", wrong.Html, StringComparison.Ordinal);
        Assert.Contains("f-outcome-problem", wrong.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"Dr Fields\"", wrong.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"2026-12-24\"", wrong.Html, StringComparison.Ordinal);
        Assert.Equal(PageHerd.BaseFacts, await PageHerd.Facts(herd));

        (string, string)[] right = [.. PageClient.Hidden(wrong.Html, address), ("date", "2026-10-05"), ("method", "ultrasound"), ("outcome", "pregnant"), ("corpusLuteum", "yes")];
        var sent = await browser.Post(address, right);
        Assert.StartsWith($"{pages}/animals/1042?notice=recorded#f_", sent.Location, StringComparison.Ordinal);
        await browser.Post(address, right);
        Assert.Equal(PageHerd.BaseFacts + 1, await PageHerd.Facts(herd));
        // An examination outranks the blood: the gate closes.
        Assert.DoesNotContain("firm", await PageHerd.State(herd, "pgf"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Withdrawing_says_what_would_change_and_wants_a_reason()
    {
        var (herd, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        await herd.Post("/test-results", """[{"sourceId":"lab-2","animal":"1042","sampled":"2026-10-01","method":"blood","outcome":"pregnant"}]""");
        var fact = (string)(await herd.Get("/facts?animal=1042"))["facts"].AsArray()[^1]!["factId"]!;
        var address = $"{pages}/animals/1042/facts/{fact}/withdraw";
        var page = await browser.Get(address);
        Assert.Contains("This opens the gate for prostaglandin", page.Html, StringComparison.Ordinal);

        var token = Token(page.Html);
        var empty = await browser.Post(address, [token, ("reason", "")]);
        Assert.Contains("f-reason-problem", empty.Html, StringComparison.Ordinal);
        Assert.Equal($"{pages}/animals/1042?notice=withdrawn", (await browser.Post(address, [token, ("reason", "another cow's")])).Location);
        Assert.Equal("firm", await PageHerd.State(herd, "pgf"));
        Assert.Equal($"{pages}/animals/1042?notice=withdrawn-before", (await browser.Post(address, [token, ("reason", "another cow's")])).Location);
    }

    [Fact]
    public async Task An_earlier_evening_is_shown_as_it_was_known_and_nothing_is_recorded_there()
    {
        await using var own = new ApiHostFixture();
        var (herd, pages) = await PageHerd.Create(own);
        await herd.Put("//testing/clock", """{"now":"2026-10-08T12:00:00Z"}""");
        await herd.Accept("""[{"sourceId":"s-9","kind":"insemination","animal":"1042","date":"2026-10-06"}]""");
        using var browser = new PageClient(own);
        var then = (await browser.Get($"{pages}/animals/1042?known=2026-10-05")).Html;
        Assert.Contains("As it was known on the evening of Monday 5 October 2026", then, StringComparison.Ordinal);
        Assert.Contains("32 days post-service: open", then, StringComparison.Ordinal);
        Assert.DoesNotContain("/add\"", then, StringComparison.Ordinal);
        Assert.DoesNotContain("/withdraw\"", then, StringComparison.Ordinal);
        Assert.Contains("2 days post-service: served, not tested yet", (await browser.Get($"{pages}/animals/1042")).Html, StringComparison.Ordinal);
        Assert.Contains("known-problem", (await browser.Get($"{pages}/animals/1042?known=2026-10-09")).Html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await browser.Get($"{pages}/animals/1042?known=2026-10-04")).Status);
    }

    [Theory]
    [InlineData("1042")]
    [InlineData("840003123456789")]
    [InlineData(" 840 003 123 456 789 ")]
    public async Task She_is_found_by_number_or_identifier_from_every_page(string asked)
    {
        var (_, pages) = await PageHerd.Create(host);
        using var browser = new PageClient(host);
        Assert.Equal($"{pages}/animals/1042", (await browser.Get($"{pages}/find?q={Uri.EscapeDataString(asked)}")).Location);
        Assert.Contains("No animal of the herd", (await browser.Get($"{pages}/find?q=4711")).Html, StringComparison.Ordinal);
    }

    private static (string, string) Token(string html)
    {
        var at = html.IndexOf("name=\"__RequestVerificationToken\" value=\"", html.IndexOf("id=\"main\"", StringComparison.Ordinal), StringComparison.Ordinal);
        var value = html[(at + 41)..];
        return ("__RequestVerificationToken", value[..value.IndexOf('"', StringComparison.Ordinal)]);
    }
}
