using System.Net;
using NodaTime;
using ReproLink.Api.Tests.Support;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Pages;

/// <summary>A form that was filled in before she was signed out loses nothing, does nothing by itself, and is taken from our own pages only.</summary>
public sealed class ExpiredFormTests(KeyedHost host) : IClassFixture<KeyedHost>, IAsyncLifetime
{
    private static int _made;

    private readonly LocationKey _location = new("farm", $"h{Interlocked.Increment(ref _made)}");
    private readonly Instant _now = SystemClock.Instance.GetCurrentInstant();
    private string _key = "";

    private string Path => $"/herds/farm/{_location.Id}";

    private HerdView View => host.Store.Views.Current(host.Store.Herds.Find(_location)!, SystemClock.Instance.GetCurrentInstant());

    private string Today => View.AsOf.ToString();

    private int Facts => View.Animals[0].History.Facts.Count;

    private List<(string Name, string Value)> Tick => [("animal", "1042"), ("step", "gnrh"), ("on", Today), ("done", "yes")];

    public async Task InitializeAsync()
    {
        var herd = await host.Store.Herds.Put(_location, "North Ridge", "America/Chicago", _now);
        await host.Store.Facts.Append(herd, [new FactDraft("1042", new Oestrus(View.AsOf - 9) { Source = "a", SourceId = "1" })], _now);
        (_key, _) = await host.Store.Keys.Create($"manager of {_location.Id}", KeyRole.Manager, null, _now);
    }

    public Task DisposeAsync() => Task.CompletedTask;

    [Fact]
    public async Task What_was_typed_before_she_was_signed_out_is_offered_again_and_only_then_recorded()
    {
        using var browser = new PageClient(host);
        var refused = await browser.Post($"{Path}/today/record", Tick, ("Sec-Fetch-Site", "same-origin"));
        Assert.True(HttpStatusCode.Forbidden == refused.Status, refused.Html);
        Assert.Contains("what you typed is still there", refused.Html, StringComparison.Ordinal);

        var wrong = await browser.Post("/sign-in", [.. PageClient.Hidden(refused.Html, "/sign-in"), ("key", "rl_wrong")]);
        Assert.Contains("not known", wrong.Html, StringComparison.Ordinal);

        var offered = await browser.Post("/sign-in", [.. PageClient.Hidden(wrong.Html, "/sign-in"), ("key", _key)]);
        Assert.Equal(HttpStatusCode.OK, offered.Status);
        Assert.Contains("Nothing was sent yet", offered.Html, StringComparison.Ordinal);
        Assert.Equal(1, Facts);

        var sent = await browser.Post($"{Path}/today/record", PageClient.Hidden(offered.Html, $"{Path}/today/record"));
        Assert.Equal($"{Path}/today?on={Today}&notice=recorded", sent.Location);
        Assert.Equal(2, Facts);
    }

    [Fact]
    public async Task The_cookie_is_for_pages_of_this_site_alone()
    {
        using var browser = new PageClient(host);
        var page = await browser.Get("/sign-in");
        var signedIn = await browser.Post("/sign-in", [.. PageClient.Hidden(page.Html, "/sign-in"), ("key", _key)]);
        var cookie = Assert.Single(signedIn.Cookies, c => c.StartsWith("reprolink=", StringComparison.Ordinal));
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(_key, cookie, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Origin", "https://elsewhere.example")]
    public async Task A_form_of_another_site_is_neither_taken_nor_kept(string header, string value)
    {
        using var browser = new PageClient(host);
        var refused = await browser.Post($"{Path}/today/record", Tick, (header, value));
        Assert.Equal(HttpStatusCode.Forbidden, refused.Status);
        Assert.DoesNotContain("1042", refused.Html, StringComparison.Ordinal);
        Assert.Equal(1, Facts);
    }

    [Fact]
    public async Task Signed_in_with_an_old_page_nothing_is_done_until_she_says_so()
    {
        using var browser = new PageClient(host);
        var page = await browser.Get("/sign-in");
        await browser.Post("/sign-in", [.. PageClient.Hidden(page.Html, "/sign-in"), ("key", _key)]);
        var old = await browser.Post($"{Path}/today/record", [.. Tick, ("__RequestVerificationToken", "old")], ("Sec-Fetch-Site", "same-origin"));
        Assert.Contains("Nothing was sent yet", old.Html, StringComparison.Ordinal);
        Assert.Equal(1, Facts);
    }
}
