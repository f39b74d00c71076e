using System.Net;
using ReproLink.Api.Tests.Support;
using ReproLink.Calendar.Programmes;
using ReproLink.Records;
using ReproLink.Web.Programmes;

namespace ReproLink.Api.Tests.Pages;

/// <summary>The programme's form as a browser without scripts sends it.</summary>
public sealed class ProgrammePageTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private static int _made;

    private readonly string _herd = $"p{Interlocked.Increment(ref _made)}";

    private string Page => $"/herds/farm/{_herd}/programme";

    private async Task<(PageClient Browser, string Html)> Open()
    {
        await host.Store.Herds.Put(new LocationKey("farm", _herd), "North Ridge", "America/Chicago", NodaTime.Instant.FromUtc(2026, 10, 5, 12, 0));
        var browser = new PageClient(host);
        return (browser, (await browser.Get(Page)).Html);
    }

    private List<(string, string)> Fields(string html, SettingValues values, string button, string value) =>
    [
        .. PageClient.Hidden(html, Page),
        .. SettingBook.All.SelectMany(s => s.Kind switch
        {
            SettingKind.Dates => [(s.Path, string.Join('\n', values.All(s.Path)))],
            SettingKind.Confirmations => values.All(s.Path).SelectMany((row, i) => row.Split(' ').Zip(["from", "to", "method"], (v, n) => ($"confirmations.{i}.{n}", v))),
            _ => values.All(s.Path).Select(v => (s.Path, v)),
        }),
        ("inForceFrom", "2026-10-05"),
        (button, value),
    ];

    [Fact]
    public async Task What_cannot_be_used_is_told_at_its_field_and_everything_is_shown_as_typed()
    {
        var (browser, html) = await Open();
        using var _ = browser;
        var values = SettingValues.Of(Programme.Default).With("test.minDaysPostService", ["twenty"]).With("week.maxTubesPerDay", ["90"]).With("week.closedDates", ["2026-12-25", "someday"]);
        var answer = await browser.Post(Page, Fields(html, values, "do", "save"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains("2 settings cannot be used. Nothing was saved.", answer.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"twenty\"", answer.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"90\"", answer.Html, StringComparison.Ordinal);
        Assert.Contains("2026-12-25\nsomeday", WebUtility.HtmlDecode(answer.Html), StringComparison.Ordinal);
        Assert.Empty(host.Store.Programmes.List(host.Store.Herds.Find(new LocationKey("farm", _herd))!, null));
    }

    [Fact]
    public async Task Saved_it_is_a_version_whose_differences_are_said_in_words()
    {
        var (browser, html) = await Open();
        using var _ = browser;
        var values = SettingValues.Of(Programme.Default).With("test.targetDaysPostService", ["35"]).With("week.samplingDays", ["monday", "wednesday", "thursday"]);
        var answer = await browser.Post(Page, Fields(html, values, "do", "save"));
        Assert.Equal($"{Page}?notice=saved", answer.Location);
        var page = (await browser.Get(Page)).Html;
        Assert.Contains("Version 1 governs", page, StringComparison.Ordinal);
        Assert.Contains("Wanted day for a test: was 32 days after service, now 35 days after service", page, StringComparison.Ordinal);
        Assert.Contains("Blood is drawn on: was Monday, Thursday, now Monday, Wednesday, Thursday", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_suggestion_fills_the_setting_and_saves_nothing()
    {
        var (browser, html) = await Open();
        using var _ = browser;
        var answer = await browser.Post(Page, Fields(html, SettingValues.Of(Programme.Default), "apply", "week.startDays=tuesday"));
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Matches("value=\"tuesday\" id=\"s-week-startDays-tuesday\" checked", answer.Html);
        Assert.DoesNotMatch("value=\"monday\" id=\"s-week-startDays-monday\" checked", answer.Html);
        Assert.Empty(host.Store.Programmes.List(host.Store.Herds.Find(new LocationKey("farm", _herd))!, null));
    }

    [Fact]
    public async Task Of_two_managers_the_second_is_told_and_loses_nothing()
    {
        var (browser, html) = await Open();
        using var _ = browser;
        await browser.Post(Page, Fields(html, SettingValues.Of(Programme.Default), "do", "save"));
        var mine = SettingValues.Of(Programme.Default).With("week.maxTubesPerDay", ["77"]);
        var told = await browser.Post(Page, Fields(html, mine, "do", "save"));
        Assert.Equal(HttpStatusCode.Conflict, told.Status);
        Assert.Contains("while you were typing", told.Html, StringComparison.Ordinal);
        Assert.Contains("value=\"77\"", told.Html, StringComparison.Ordinal);
        var saved = await browser.Post(Page, Fields(told.Html, mine, "do", "save"));
        Assert.Equal($"{Page}?notice=saved", saved.Location);
    }

    [Fact]
    public async Task What_cannot_work_is_saved_as_a_draft_that_governs_nothing()
    {
        var (browser, html) = await Open();
        using var _ = browser;
        var values = SettingValues.Of(Programme.Default).With("laboratory.turnaroundWorkingDays", ["30"]);
        var answer = await browser.Post(Page, Fields(html, values, "do", "save"));
        Assert.Equal($"{Page}?notice=draft", answer.Location);
        var page = (await browser.Get(Page)).Html;
        Assert.Contains("Draft: the check found it cannot work", page, StringComparison.Ordinal);
        Assert.Contains("Nothing was saved yet", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_span_of_closed_days_is_added_day_by_day()
    {
        var (browser, html) = await Open();
        using var _ = browser;
        var fields = Fields(html, SettingValues.Of(Programme.Default), "do", "add");
        fields.AddRange([("week.closedDates.from", "2026-12-24"), ("week.closedDates.to", "2026-12-26")]);
        var answer = await browser.Post(Page, fields);
        Assert.Contains("2026-12-24\n2026-12-25\n2026-12-26", WebUtility.HtmlDecode(answer.Html), StringComparison.Ordinal);
        fields.RemoveAll(f => f.Item1 == "week.closedDates.to");
        fields.Add(("week.closedDates.to", "2026-12-20"));
        Assert.Contains("the last not before the first", (await browser.Post(Page, fields)).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_recalled_protocol_is_listed_and_chosen_only_after_a_veterinarian_answers_for_it()
    {
        var (browser, html) = await Open();
        using var _ = browser;
        var recalled = ReproLink.Calendar.Protocols.ProtocolLibrary.All.Values.First(p => !p.IsSelectable);
        Assert.Matches($"<option value=\"{recalled.Id}\" disabled", html);
        var values = SettingValues.Of(Programme.Default).With(recalled.Class is ReproLink.Calendar.Protocols.AnimalClass.DairyHeifer or ReproLink.Calendar.Protocols.AnimalClass.BeefHeifer ? "resynchronisation.protocolHeifer" : "resynchronisation.protocol", [recalled.Id]);
        Assert.Contains("a veterinarian must confirm it first", (await browser.Post(Page, Fields(html, values, "do", "save"))).Html, StringComparison.Ordinal);
        var confirmed = await browser.Post($"{Page}/protocols/confirm", [.. PageClient.Hidden(html, Page).Where(f => f.Name != "latest"), ("protocol", recalled.Id)]);
        Assert.Equal($"{Page}?notice=confirmed", confirmed.Location);
        Assert.DoesNotMatch($"<option value=\"{recalled.Id}\" disabled", (await browser.Get(Page)).Html);
    }
}
