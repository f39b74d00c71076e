using System.Net;
using System.Text;
using NodaTime;
using ReproLink.Api.Tests.Support;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Pages;

/// <summary>Results by forms: nothing stored before it was looked at, the roles, and what a person can get wrong.</summary>
public sealed class ResultFormTests(KeyedHost host) : IClassFixture<KeyedHost>, IAsyncLifetime
{
    private static int _made;

    private readonly LocationKey _location = new("farm", $"results{Interlocked.Increment(ref _made)}");
    private readonly Instant _now = SystemClock.Instance.GetCurrentInstant();
    private Herd _herd = null!;

    private string Path => $"/herds/farm/{_location.Id}";

    private HerdView View => host.Store.Views.Current(_herd, SystemClock.Instance.GetCurrentInstant());

    private string Ours => $"sourceId,animal,sampled,outcome\na,1042,{View.AsOf - 1},open\nb,none,{View.AsOf - 1},open\n";

    private IReadOnlyList<StoredLine> Received => host.Store.Received.List(_herd, new ReceivedQuery(), null, 100).Items;

    public async Task InitializeAsync()
    {
        _herd = await host.Store.Herds.Put(_location, "North Ridge", "America/Chicago", _now);
        await host.Store.Facts.Append(_herd, [new FactDraft("1042", new Insemination(View.AsOf - 40) { Source = "a", SourceId = "1" })], _now);
    }

    public Task DisposeAsync() => Task.CompletedTask;

    private async Task<PageClient> As(KeyRole role)
    {
        var (key, _) = await host.Store.Keys.Create($"{role} {Guid.NewGuid():N}", role, null, _now);
        var browser = new PageClient(host);
        await browser.SignIn(key);
        return browser;
    }

    private async Task<(HttpStatusCode Status, string Html, string? Location, IReadOnlyList<string> Cookies)> Preview(PageClient browser, params (string, string)[] fields)
    {
        var page = await browser.Get($"{Path}/results");
        return await browser.Post($"{Path}/results/preview", [.. PageClient.Hidden(page.Html, $"{Path}/results/preview"), .. fields]);
    }

    [Fact]
    public async Task What_is_pasted_is_looked_at_then_stored_once_and_held_results_are_decided_and_taken_back()
    {
        using var browser = await As(KeyRole.Manager);
        var preview = await Preview(browser, ("text", Ours));
        Assert.Equal(HttpStatusCode.OK, preview.Status);
        Assert.Contains("Nothing is stored yet", preview.Html, StringComparison.Ordinal);
        Assert.Empty(Received);

        List<(string, string)> form = [.. PageClient.Hidden(preview.Html, $"{Path}/results/store"), ("text", Ours)];
        var (first, second) = (await browser.Post($"{Path}/results/store", form), await browser.Post($"{Path}/results/store", form));
        Assert.Equal($"{Path}/results/received/1", first.Location);
        Assert.Equal(first.Location, second.Location);
        Assert.Equal(2, Received.Count);

        var held = await browser.Get($"{Path}/results/held");
        var id = Assert.Single(host.Store.Held.Open(_herd)).HeldId;
        var assigned = await browser.Post($"{Path}/results/held/{id}/assign", [.. PageClient.Hidden(held.Html, $"{Path}/results/held/{id}/assign"), ("animal", "1042")]);
        Assert.True(assigned.Status == HttpStatusCode.Redirect, assigned.Html);
        var done = await browser.Get(assigned.Location!);
        Assert.Contains("It is 1042&#x27;s.", done.Html, StringComparison.Ordinal);
        await browser.Post($"{Path}/results/held/{id}/reopen", PageClient.Hidden(done.Html, $"{Path}/results/held/{id}/reopen"));
        Assert.Single(host.Store.Held.Open(_herd));
    }

    [Fact]
    public async Task Each_role_sees_and_does_what_it_may()
    {
        using var manager = await As(KeyRole.Manager);
        var stored = await Preview(manager, ("text", Ours));
        await manager.Post($"{Path}/results/store", [.. PageClient.Hidden(stored.Html, $"{Path}/results/store"), ("text", Ours)]);
        var id = Assert.Single(host.Store.Held.Open(_herd)).HeldId;
        var token = PageClient.Hidden(stored.Html, $"{Path}/results/store").First(f => f.Name.StartsWith("__", StringComparison.Ordinal)).Name;

        using var reader = await As(KeyRole.Reader);
        Assert.DoesNotContain("type=\"file\"", (await reader.Get($"{Path}/results")).Html, StringComparison.Ordinal);
        var looked = await reader.Get($"{Path}/results/held");
        Assert.DoesNotContain("<button name", looked.Html, StringComparison.Ordinal);
        Assert.Contains(id, looked.Html, StringComparison.Ordinal);

        // Exchange takes results in, and decides nothing about held ones; the veterinarian decides, and does not change how files are read.
        using var exchange = await As(KeyRole.Exchange);
        var page = await exchange.Get($"{Path}/results");
        var proof = PageClient.Hidden(page.Html, $"{Path}/results/preview").Where(f => f.Name == token).ToList();
        Assert.Equal(HttpStatusCode.Forbidden, (await exchange.Post($"{Path}/results/held/{id}/dismiss", [.. proof, ("reason", "x")])).Status);
        Assert.Equal(HttpStatusCode.Forbidden, (await exchange.Post($"{Path}/results/mapping", [.. proof, ("text", "Cow;R\n1;x"), ("do", "save")])).Status);
        using var vet = await As(KeyRole.Veterinarian);
        var foreign = await Preview(vet, ("text", "Cow;Result\n1042;PREG"), ("sender", "valley"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, foreign.Status);
        Assert.Contains("Only a manager says how", foreign.Html, StringComparison.Ordinal);
        Assert.Contains("Cow;Result", foreign.Html, StringComparison.Ordinal);
        Assert.Single(host.Store.Held.Open(_herd));
    }

    [Fact]
    public async Task What_a_person_can_get_wrong_is_said_in_a_sentence_and_stores_nothing()
    {
        using var browser = await As(KeyRole.Manager);
        var empty = await Preview(browser);
        Assert.Contains("Choose a file, or paste what it says.", empty.Html, StringComparison.Ordinal);

        var page = await browser.Get($"{Path}/results");
        var proof = PageClient.Hidden(page.Html, $"{Path}/results/preview");
        var noText = await browser.PostFile($"{Path}/results/preview", proof, [0x50, 0x4B, 0xFF, 0xFE, 0x00]);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, noText.Status);
        Assert.Contains("This file is no text", noText.Html, StringComparison.Ordinal);

        var quotes = await Preview(browser, ("text", "sourceId,animal\n\"a,1"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, quotes.Status);
        Assert.Contains("quote", quotes.Html, StringComparison.Ordinal);

        var broken = await Preview(browser, ("text", "[{]"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, broken.Status);
        Assert.Contains("[{]", broken.Html, StringComparison.Ordinal);

        var big = await browser.PostFile($"{Path}/results/preview", proof, Encoding.UTF8.GetBytes(new string('x', 11 * 1024 * 1024)));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, big.Status);
        Assert.Contains("at most 10 MB", big.Html, StringComparison.Ordinal);
        Assert.Empty(Received);
    }

    [Fact]
    public async Task A_file_of_five_megabytes_passes_through_every_step_whole()
    {
        using var browser = await As(KeyRole.Manager);
        var text = new StringBuilder("sourceId,animal,sampled,outcome,specimen\n");
        for (var i = 0; i < 9000; i++)
        {
            text.Append(System.Globalization.CultureInfo.InvariantCulture, $"s{i},1042,{View.AsOf - 1},recheck,{new string('é', 90)}\n");
        }

        var page = await browser.Get($"{Path}/results");
        var preview = await browser.PostFile($"{Path}/results/preview", PageClient.Hidden(page.Html, $"{Path}/results/preview"), Encoding.UTF8.GetBytes(text.ToString()));
        Assert.True(preview.Status == HttpStatusCode.OK, preview.Html[..Math.Min(2000, preview.Html.Length)]);
        Assert.Contains("9000 lines", preview.Html, StringComparison.Ordinal);
        Assert.Contains("And 8500 more", preview.Html, StringComparison.Ordinal);
    }
}
