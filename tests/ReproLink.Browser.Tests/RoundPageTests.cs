using Microsoft.Playwright;

namespace ReproLink.Browser.Tests;

/// <summary>The round at the desk: started from the week, printed, sent off.</summary>
public sealed class RoundPageTests(DemoSite site, Chromium chromium) : IClassFixture<DemoSite>, IClassFixture<Chromium>
{
    private async Task<IPage> Open(IBrowserContext browser, string path)
    {
        var page = await browser.NewPageAsync();
        await page.GotoAsync($"{site.Address}{Visit.Herd}/{path}");
        return page;
    }

    [SkippableFact]
    public async Task From_the_week_a_round_is_started_and_every_page_of_it_can_be_used_by_anybody()
    {
        string round;
        await using (var first = await chromium.Browser(scripts: false))
        {
            var page = await Open(first, "week");
            await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Start the round of Mon 5 Oct" }).ClickAsync();
            await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("The round is started");
            round = (await page.Locator("h1").TextContentAsync())!.Replace("Round ", "", StringComparison.Ordinal);
            await page.GoBackAsync();
            await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Start the round of Mon 5 Oct" }).ClickAsync();
            await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Start a round");
            await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("not in another round");
        }

        await site.Send(HttpMethod.Put, $"/sampling-rounds/{round}/tubes/1", new { state = "drawn", time = "06:40", by = "Ana", date = "2026-10-05" });
        await site.Send(HttpMethod.Put, $"/sampling-rounds/{round}/tubes/2", new { state = "not-drawn", reason = "refused", by = "Ana" });
        foreach (var (path, name) in new[] { ("rounds", "rounds"), ("rounds/start?date=2026-10-08", "start"), ($"rounds/{round}", "round") })
        {
            await using var browser = await chromium.Browser();
            var page = await Open(browser, path);
            await page.IsUsableByAnybody(path, name);
        }
    }

    [SkippableFact]
    public async Task Animals_are_picked_by_hand_with_the_keyboard_alone_and_a_wrong_name_loses_nothing()
    {
        await using var browser = await chromium.Browser();
        var page = await Open(browser, "rounds/start?date=2026-10-12");
        var boxes = page.GetByRole(AriaRole.Checkbox);
        var listed = await boxes.CountAsync();
        Assert.True(listed > 1, "the invented herd has a list that day");
        await page.TabTo(boxes.First);
        await page.Keyboard.PressAsync("Space");
        await page.TabTo(page.GetByLabel("Other animals"));
        await page.Keyboard.TypeAsync("1044, 9999x");
        await page.TabTo(page.GetByLabel("What people call this round"));
        await page.Keyboard.TypeAsync("Monday, hand-picked");
        await page.TabTo(page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Start the round", Exact = true }));
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Alert).First).ToContainTextAsync("9999x");
        Assert.Equal("1044, 9999x", await page.GetByLabel("Other animals").InputValueAsync());
        Assert.Equal("Monday, hand-picked", await page.GetByLabel("What people call this round").InputValueAsync());
        Assert.False(await boxes.First.IsCheckedAsync());
        await page.GetByLabel("Other animals").FillAsync("1044");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Start the round", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Monday, hand-picked");
        await Assertions.Expect(page.Locator("table.tubes tbody tr:not(.paper)")).ToHaveCountAsync(listed);
    }

    [SkippableFact]
    public async Task The_clipboard_sheet_the_labels_and_the_manifest_print_whole()
    {
        await using var browser = await chromium.Browser();
        var animals = (await site.Get("/bleed-list?from=2026-10-05&to=2026-10-18&detail=all"))["days"]!.AsArray().SelectMany(d => d!["animals"]!.AsArray()).Select(a => (string)a!["animal"]!).Distinct().Take(24).ToArray();
        var round = await site.Round(animals);
        await site.Send(HttpMethod.Put, $"/sampling-rounds/{round}/tubes/1", new { state = "drawn", time = "06:40", by = "Ana", date = "2026-10-05" });
        var page = await Open(browser, $"rounds/{round}");
        Assert.Equal(animals.Length <= 14 ? 1 : 2, await page.Sheets("round-print"));
        Assert.True(await page.Locator(".cautions").IsVisibleAsync());
        Assert.True(await page.Locator(".paper").First.IsVisibleAsync());
        Assert.False(await page.Locator("form").First.IsVisibleAsync());
        Assert.True(await page.EvaluateAsync<bool>("[...document.querySelectorAll('table.tubes td, table.tubes th')].every(c => c.scrollWidth <= c.clientWidth + 1)"), "a cell of the sheet is cut");
        Assert.InRange(await page.Sheets("round-print-letter", "Letter"), 1, 2);

        var labels = await Open(browser, $"rounds/{round}/labels?layout=a4-3x8&skip=1");
        Assert.Equal(((animals.Length + 1) + 23) / 24, await labels.Sheets("labels-print"));
        var wrong = await Open(browser, $"rounds/{round}/labels?layout=a4-3x8&skip=99");
        await Assertions.Expect(wrong.Locator("#skip-problem")).ToContainTextAsync("from 0 to 23");
        Assert.Equal("99", await wrong.Locator("#skip").InputValueAsync());
    }

    [SkippableFact]
    public async Task What_left_is_recorded_once_with_a_warning_about_tubes_that_waited_too_long()
    {
        await using var browser = await chromium.Browser(scripts: false);
        var round = await site.Round("1042", "1043");
        await site.Send(HttpMethod.Put, $"/sampling-rounds/{round}/tubes/1", new { state = "drawn", date = "2026-09-18", by = "Ana" });
        await site.Send(HttpMethod.Put, $"/sampling-rounds/{round}/tubes/2", new { state = "drawn", date = "2026-10-05", by = "Ana" });
        var page = await Open(browser, $"rounds/{round}");
        await Assertions.Expect(page.Locator("#dispatch .problem")).ToContainTextAsync("Drawn 17 days before");
        await page.GetByLabel("Left on").FillAsync("2026-09-01");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "They left" }).ClickAsync();
        await Assertions.Expect(page.Locator("#on-problem")).ToContainTextAsync("not before");
        Assert.Equal("2026-09-01", await page.GetByLabel("Left on").InputValueAsync());
        await page.GetByLabel("Left on").FillAsync("");
        await page.GetByLabel("Sent by").FillAsync("Ben");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "They left" }).ClickAsync();
        await Assertions.Expect(page.Locator("#dispatch .notice")).ToContainTextAsync("The report is expected on");
        await Assertions.Expect(page.Locator("#dispatch .notice")).ToContainTextAsync("L3");
        await page.ReloadAsync();
        Assert.Single((await site.Get($"/sampling-rounds/{round}"))["dispatches"]!.AsArray());
        await page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "Manifest to print" }).ClickAsync();
        await Assertions.Expect(page.Locator("tbody tr")).ToHaveCountAsync(2);
        await page.GoBackAsync();
        await page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = $"{round}-001" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Broken" })).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Drawn" })).ToBeHiddenAsync();
    }
}
