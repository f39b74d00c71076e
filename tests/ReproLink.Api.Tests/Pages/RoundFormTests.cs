using System.Net;
using System.Text.Json.Nodes;
using NodaTime;
using ReproLink.Api.Tests.Support;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Pages;

/// <summary>Rounds by forms and by the script at the chute, on a farm where nobody is let in without a key.</summary>
public sealed class RoundFormTests(KeyedHost host) : IClassFixture<KeyedHost>, IAsyncLifetime
{
    private static int _made;

    private readonly LocationKey _location = new("farm", $"rounds{Interlocked.Increment(ref _made)}");
    private readonly Instant _now = SystemClock.Instance.GetCurrentInstant();
    private Herd _herd = null!;

    private string Path => $"/herds/farm/{_location.Id}";

    private HerdView View => host.Store.Views.Current(_herd, SystemClock.Instance.GetCurrentInstant());

    public async Task InitializeAsync()
    {
        _herd = await host.Store.Herds.Put(_location, "North Ridge", "America/Chicago", _now);
        await host.Store.Facts.Append(_herd, [.. new[] { "1042", "1043" }.Select(a => new FactDraft(a, new Oestrus(View.AsOf - 9) { Source = "a", SourceId = a }))], _now);
    }

    public Task DisposeAsync() => Task.CompletedTask;

    private async Task<PageClient> As(KeyRole role)
    {
        var (key, _) = await host.Store.Keys.Create($"{role} {Guid.NewGuid():N}", role, null, _now);
        var browser = new PageClient(host);
        await browser.SignIn(key);
        return browser;
    }

    private async Task<string> Start(PageClient browser)
    {
        var page = await browser.Get($"{Path}/rounds/start?date={View.AsOf}");
        var answer = await browser.Post($"{Path}/rounds/start", [.. PageClient.Hidden(page.Html, $"{Path}/rounds/start"), ("more", "1042, 1043")]);
        Assert.Equal(HttpStatusCode.Redirect, answer.Status);
        return answer.Location!.Split('?')[0];
    }

    private Round Round(string address) => host.Store.Rounds.Find(_herd, int.Parse(address[(address.LastIndexOf('R') + 1)..], System.Globalization.CultureInfo.InvariantCulture))!;

    [Fact]
    public async Task What_the_script_sends_is_done_once_and_only_from_a_page_of_ours()
    {
        using var browser = await As(KeyRole.Manager);
        var round = await Start(browser);
        var tube = $"{round}/tubes/R{Round(round).Number}-001";
        const string Drawn = """{"state":"drawn","time":"06:41","by":"Ana","was":"planned"}""";
        var bare = await browser.SendJson(HttpMethod.Put, tube, Drawn);
        Assert.Equal(HttpStatusCode.BadRequest, bare.Status);
        Assert.Contains("/problems/page-expired", bare.Html, StringComparison.Ordinal);
        Assert.Equal("planned", await State(browser, round));

        var token = await Token(browser, round);
        var first = await browser.SendJson(HttpMethod.Put, tube, Drawn, ("RequestVerificationToken", token), ("Idempotency-Key", "k1"));
        Assert.True(first.Status == HttpStatusCode.OK, first.Html);
        var sequence = View.Sequence;
        var again = await browser.SendJson(HttpMethod.Put, tube, Drawn, ("RequestVerificationToken", token), ("Idempotency-Key", "k1"));
        Assert.Equal((first.Status, first.Html), (again.Status, again.Html));
        Assert.Equal(sequence, View.Sequence);

        var added = await browser.SendJson(HttpMethod.Post, $"{round}/tubes", $$"""{"redraws":"R{{Round(round).Number}}-001"}""", ("RequestVerificationToken", token), ("Idempotency-Key", "k2"));
        Assert.Equal(HttpStatusCode.Created, added.Status);
        Assert.Equal(3, Round(round).Tubes.Count);
    }

    [Fact]
    public async Task Whoever_is_not_signed_in_or_may_only_look_records_nothing()
    {
        using var manager = await As(KeyRole.Manager);
        var round = await Start(manager);
        using var nobody = new PageClient(host);
        Assert.Equal(HttpStatusCode.Unauthorized, (await nobody.Get($"{round}/now")).Status);
        Assert.Equal(HttpStatusCode.Unauthorized, (await nobody.SendJson(HttpMethod.Put, $"{round}/tubes/1", """{"state":"broken"}""")).Status);

        using var reader = await As(KeyRole.Reader);
        var token = await Token(reader, round);
        Assert.Equal(HttpStatusCode.Forbidden, (await reader.SendJson(HttpMethod.Put, $"{round}/tubes/1", """{"state":"broken"}""", ("RequestVerificationToken", token))).Status);
        foreach (var page in new[] { "", "/chute" })
        {
            var html = (await reader.Get(round + page)).Html;
            Assert.DoesNotContain("name=\"mark\"", html, StringComparison.Ordinal);
            Assert.DoesNotContain("They left", html, StringComparison.Ordinal);
            Assert.DoesNotContain("To the chute", html, StringComparison.Ordinal);
        }

        foreach (var (address, field) in new[] { ($"{round}/mark", "mark"), ($"{round}/add", "animal"), ($"{round}/dispatch", "tubes"), ($"{Path}/rounds/start", "date") })
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await reader.Post(address, [(field, "broken"), ("tube", "1"), ("__RequestVerificationToken", token)])).Status);
        }

        Assert.Equal(HttpStatusCode.Forbidden, (await reader.Get($"{Path}/rounds/start")).Status);
        Assert.Equal("planned", await State(manager, round));
    }

    [Fact]
    public async Task The_same_form_sent_twice_is_done_once()
    {
        using var browser = await As(KeyRole.Manager);
        var page = await browser.Get($"{Path}/rounds/start?date={View.AsOf}");
        List<(string, string)> form = [.. PageClient.Hidden(page.Html, $"{Path}/rounds/start"), ("more", "1042")];
        var (first, second) = (await browser.Post($"{Path}/rounds/start", form), await browser.Post($"{Path}/rounds/start", form));
        Assert.Equal(first.Location, second.Location);

        var round = first.Location!.Split('?')[0];
        page = await browser.Get($"{round}/chute");
        List<(string, string)> add = [.. PageClient.Hidden(page.Html, $"{round}/add"), ("animal", "1043")];
        Assert.Equal(HttpStatusCode.Redirect, (await browser.Post($"{round}/add", add)).Status);
        Assert.Equal(HttpStatusCode.Redirect, (await browser.Post($"{round}/add", add)).Status);
        Assert.Equal(2, Round(round).Tubes.Count);
    }

    [Fact]
    public async Task A_form_that_grew_old_is_shown_again_filled_in_before_anything_is_done()
    {
        using var nobody = new PageClient(host);
        var refused = await nobody.Post($"{Path}/rounds/start", [("chosen", "yes"), ("date", View.AsOf.ToString()), ("more", "1042"), ("name", "Fresh pens")], ("Sec-Fetch-Site", "same-origin"));
        var (key, _) = await host.Store.Keys.Create($"late {Guid.NewGuid():N}", KeyRole.Manager, null, _now);
        var offered = await nobody.Post("/sign-in", [.. PageClient.Hidden(refused.Html, "/sign-in"), ("key", key)]);
        var shown = await nobody.Post($"{Path}/rounds/start", PageClient.Hidden(offered.Html, $"{Path}/rounds/start"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, shown.Status);
        Assert.Contains("value=\"Fresh pens\"", shown.Html, StringComparison.Ordinal);
        Assert.Contains(">1042</textarea>", shown.Html, StringComparison.Ordinal);
        Assert.Empty(host.Store.Rounds.List(_herd, null, 10).Items);
        // Another form of the page, which only shows another day, goes to the same address.
        var form = shown.Html[shown.Html.IndexOf($"<form method=\"post\" action=\"{Path}/rounds/start\"", StringComparison.Ordinal)..];
        var done = await nobody.Post($"{Path}/rounds/start", [.. PageClient.Hidden(form, $"{Path}/rounds/start"), ("more", "1042"), ("name", "Fresh pens"), ("specimen", "serum")]);
        Assert.True(done.Status == HttpStatusCode.Redirect, done.Html);
        Assert.Equal("Fresh pens", Assert.Single(host.Store.Rounds.List(_herd, null, 10).Items).Name);
    }

    [Fact]
    public async Task Another_herds_round_and_one_that_is_not_there_are_said_so()
    {
        using var browser = await As(KeyRole.Manager);
        foreach (var path in new[] { "/rounds/R77", "/rounds/R77/chute", "/rounds/x/labels", "/rounds/R77/manifest", "/rounds/R77/manifest.csv" })
        {
            var answer = await browser.Get(Path + path);
            Assert.Equal(HttpStatusCode.NotFound, answer.Status);
            Assert.Contains("There is no such round", answer.Html, StringComparison.Ordinal);
        }

        Assert.Equal(HttpStatusCode.NotFound, (await browser.Get($"{Path}/rounds/R77/now")).Status);
    }

    private static async Task<string> Token(PageClient browser, string round) =>
        (string)JsonNode.Parse((await browser.Get($"{round}/now")).Html)!["token"]!;

    private static async Task<string> State(PageClient browser, string round) =>
        (string)JsonNode.Parse((await browser.Get($"{round}/now")).Html)!["round"]!["state"]!;
}
