using System.Net;
using NodaTime;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Pages;

/// <summary>The link that lets a person in once.</summary>
public sealed class WelcomeTests(KeyedHost host) : IClassFixture<KeyedHost>
{
    private static int _made;

    private readonly string _name = $"Ada {Interlocked.Increment(ref _made)}";

    private static Instant Now => SystemClock.Instance.GetCurrentInstant();

    private async Task<string> Link(KeyRole role = KeyRole.Manager, Instant? made = null) =>
        "/welcome/" + await host.Store.SignInLinks.Create(role, null, made ?? Now, Duration.FromHours(24));

    private static async Task<(HttpStatusCode Status, string Html, IReadOnlyList<string> Cookies)> Enter(PageClient browser, string link, string name)
    {
        var page = await browser.Get(link);
        var answer = await browser.Post(link, [.. PageClient.Hidden(page.Html, link), ("name", name)]);
        return (answer.Status, WebUtility.HtmlDecode(answer.Html), answer.Cookies);
    }

    [Fact]
    public async Task It_opens_once_and_a_second_use_is_refused_with_a_sentence()
    {
        var link = await Link();
        using var browser = new PageClient(host);
        using var second = new PageClient(host);
        var before = await second.Get(link);
        var entered = await Enter(browser, link, _name);
        Assert.Equal(HttpStatusCode.OK, entered.Status);
        Assert.Contains("rl_", entered.Html, StringComparison.Ordinal);
        Assert.Contains(entered.Cookies, c => c.StartsWith("reprolink=", StringComparison.Ordinal));

        var late = await second.Post(link, [.. PageClient.Hidden(before.Html, link), ("name", "Somebody else")]);
        Assert.Equal(HttpStatusCode.Gone, late.Status);
        Assert.Contains($"It was used by {_name}", late.Html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Gone, (await second.Get(link)).Status);
        Assert.DoesNotContain(host.Store.Keys.List(), k => k.Name == "Somebody else");
    }

    [Fact]
    public async Task Of_many_who_use_it_at_once_one_comes_in()
    {
        var secret = await host.Store.SignInLinks.Create(KeyRole.Manager, null, Now, Duration.FromHours(1));
        var made = await Task.WhenAll(Enumerable.Range(0, 20).Select(i => host.Store.SignInLinks.Use(secret, $"{_name} {i}", Now)));
        Assert.Single(made, key => key is not null);
        Assert.Single(host.Store.Keys.List(), k => k.Name.StartsWith(_name + " ", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Looking_at_it_does_not_use_it_up()
    {
        var link = await Link();
        using var browser = new PageClient(host);
        await browser.Get(link);
        await browser.Get(link);
        Assert.Equal(HttpStatusCode.OK, (await Enter(browser, link, _name)).Status);
    }

    [Fact]
    public async Task Once_its_time_is_over_it_opens_nothing()
    {
        var link = await Link(made: Now - Duration.FromHours(24));
        using var browser = new PageClient(host);
        var closed = await browser.Get(link);
        Assert.Equal(HttpStatusCode.Gone, closed.Status);
        Assert.Contains("Its time is over", closed.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_link_of_nobody_is_not_found()
    {
        using var browser = new PageClient(host);
        Assert.Equal(HttpStatusCode.NotFound, (await browser.Get("/welcome/rl_nothing")).Status);
    }

    [Fact]
    public async Task A_name_that_is_taken_is_told_and_the_link_still_opens()
    {
        await host.Store.Keys.Create(_name, KeyRole.Reader, null, Now);
        var link = await Link();
        using var browser = new PageClient(host);
        var told = await Enter(browser, link, _name);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, told.Status);
        Assert.Contains($"value=\"{_name}\"", told.Html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Enter(browser, link, " ")).Status);
        Assert.Equal(HttpStatusCode.OK, (await Enter(browser, link, _name + " the second")).Status);
    }

    [Fact]
    public async Task It_makes_the_role_it_was_made_for()
    {
        var link = await Link(KeyRole.Veterinarian);
        using var browser = new PageClient(host);
        Assert.Contains("as veterinarian", (await Enter(browser, link, _name)).Html, StringComparison.Ordinal);
        Assert.Equal(KeyRole.Veterinarian, host.Store.Keys.List().Single(k => k.Name == _name).Role);
    }

    [Fact]
    public async Task Who_came_in_makes_her_herd_and_a_wrong_zone_is_told_at_its_field()
    {
        using var browser = new PageClient(host);
        await Enter(browser, await Link(), _name);
        var home = await browser.Get("/");
        var wrong = await browser.Post("/herds", [.. PageClient.Hidden(home.Html, "/herds"), ("name", "Lärchen Hof 2"), ("zone", "Mars/Olympus")]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, wrong.Status);
        Assert.Contains("There is no time zone “Mars/Olympus”", WebUtility.HtmlDecode(wrong.Html), StringComparison.Ordinal);
        Assert.Contains("value=\"Lärchen Hof 2\"", WebUtility.HtmlDecode(wrong.Html), StringComparison.Ordinal);
        var made = await browser.Post("/herds", [.. PageClient.Hidden(wrong.Html, "/herds"), ("name", "Lärchen Hof 2"), ("zone", "Europe/Berlin")]);
        Assert.Equal("/herds/local/l%C3%A4rchen-hof-2/programme", made.Location);
        Assert.Equal(HttpStatusCode.OK, (await browser.Get(made.Location!)).Status);
    }

    [Fact]
    public async Task Signed_out_nothing_is_shown_any_more()
    {
        using var browser = new PageClient(host);
        var entered = await Enter(browser, await Link(), _name);
        Assert.Contains("rl_", entered.Html, StringComparison.Ordinal);
        var home = await browser.Get("/");
        Assert.NotEqual("/sign-in?return=%2F", home.Location);
        await browser.Post("/sign-out", PageClient.Hidden((await browser.Get("/sign-in")).Html, "/sign-in"));
        Assert.StartsWith("/sign-in", (await browser.Get("/")).Location, StringComparison.Ordinal);
    }
}
