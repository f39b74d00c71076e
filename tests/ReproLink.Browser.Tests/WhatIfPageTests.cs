using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace ReproLink.Browser.Tests;

/// <summary>The what-if page does its job without scripts: it opens with an answer, takes another question, and loses nothing typed.</summary>
public sealed class WhatIfPageTests(DemoSite site, Chromium chromium) : IClassFixture<DemoSite>, IClassFixture<Chromium>
{
    private const string Herd = "/herds/demo/larch-hollow";

    private async Task<IPage> Open(string path, int width = 1280)
    {
        Skip.If(chromium.Browser is null, Chromium.Missing);
        var context = await chromium.Browser!.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = 900 },
            JavaScriptEnabled = false,
        });
        var page = await context.NewPageAsync();
        await page.GotoAsync(site.Address + path);
        return page;
    }

    [SkippableFact]
    public async Task It_opens_with_the_cost_of_a_slower_laboratory_and_the_cautions()
    {
        var page = await Open($"{Herd}/programme");
        await page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { NameRegex = new Regex("Compare programmes") }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("What if?");
        await Assertions.Expect(page.Locator(".says")).ToContainTextAsync(new Regex(@"\d+\.\d days open, \d+\.\d days more than under “As now” \(95 % limits \+"));
        await Assertions.Expect(page.GetByRole(AriaRole.Img, new PageGetByRoleOptions { Name = "Share pregnant by days in milk" })).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator(".cautions")).ToContainTextAsync("Prostaglandin ends a pregnancy");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("none is culled");
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task Another_programme_is_compared_on_a_phone()
    {
        var page = await Open($"{Herd}/what-if", 390);
        await page.Locator("summary", new PageLocatorOptions { HasText = "Programme 3" }).ClickAsync();
        await page.Locator("#name3").FillAsync("Oestrus watched better");
        await page.Locator("#returns3").FillAsync("80");
        await page.Locator("#lastServiceDay").Locator("xpath=ancestor::details").Locator("summary").ClickAsync();
        await page.Locator("#lastServiceDay").FillAsync("300");
        await page.Locator("#dayOpen").FillAsync("3");
        await page.Locator("#currency").FillAsync("USD");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Compare" }).ClickAsync();
        await Assertions.Expect(page.Locator("h3", new PageLocatorOptions { HasText = "Oestrus watched better" })).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("tr", new PageLocatorOptions { HasText = "USD a cow, your prices" })).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Without a price, and not in the sum");
        Assert.Equal("80", await page.Locator("#returns3").InputValueAsync());
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task What_cannot_be_reckoned_is_told_at_the_field_and_nothing_typed_is_lost()
    {
        var page = await Open($"{Herd}/what-if");
        await page.Locator("#pregnantLater").FillAsync("forty");
        await page.Locator("#turnaround2").FillAsync("99");
        var ticked = page.Locator("input[name=sampling2]:checked");
        while (await ticked.CountAsync() > 0)
        {
            await ticked.First.UncheckAsync();
        }

        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Compare" }).ClickAsync();
        await Assertions.Expect(page.Locator("#pregnantLater-problem")).ToHaveTextAsync("Write a number from 1 to 100 per cent.");
        await Assertions.Expect(page.Locator("#turnaround2-problem")).ToHaveTextAsync("Write a whole number from 0 to 30.");
        await Assertions.Expect(page.Locator("#sampling2-problem")).ToHaveTextAsync("Choose at least one day.");
        Assert.Equal("forty", await page.Locator("#pregnantLater").InputValueAsync());
        Assert.Equal("99", await page.Locator("#turnaround2").InputValueAsync());
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task The_test_in_this_herd_says_what_its_answers_are_worth_and_when_a_second_sample_pays()
    {
        var page = await Open($"{Herd}/test-in-herd");
        await Assertions.Expect(page.Locator(".says")).ToContainTextAsync("Of 1,000 answers open");
        await page.Locator("#study").SelectOptionAsync("mayo-2016-rapid-eye");
        await page.Locator("#testPrice").FillAsync("4");
        await page.Locator("#dayOpenPrice").FillAsync("3");
        await page.Locator("#lostPregnancyPrice").FillAsync("500");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Reckon" }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync(new Regex("At your prices it (pays|does not pay)"));
        await Assertions.Expect(page.Locator(".lead")).ToContainTextAsync("read by eye");
        await page.Locator("#sharePregnant").FillAsync("150");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Reckon" }).ClickAsync();
        await Assertions.Expect(page.Locator("#sharePregnant-problem")).ToContainTextAsync("from 0 to 100");
        await page.Context.CloseAsync();
    }
}
