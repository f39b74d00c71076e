using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace ReproLink.Browser.Tests;

/// <summary>The programme's page: settings, the check while they change, saving, by every kind of user.</summary>
public sealed class ProgrammeTests(DemoSite site, Chromium chromium) : IClassFixture<DemoSite>, IClassFixture<Chromium>
{
    private const string Page = "/herds/demo/larch-hollow/programme";

    private async Task<IPage> Open(int width = 1280, ColorScheme scheme = ColorScheme.Light, bool scripts = true)
    {
        Skip.If(chromium.Browser is null, Chromium.Missing);
        var context = await chromium.Browser!.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = 900 },
            ColorScheme = scheme,
            JavaScriptEnabled = scripts,
        });
        var page = await context.NewPageAsync();
        await page.GotoAsync(site.Address + Page);
        return page;
    }

    private static ILocator Summary(IPage page, string group) => page.Locator($"#g-{group} > summary");

    private static ILocator Check(IPage page) => page.Locator("#check");

    [SkippableFact]
    public async Task While_settings_change_the_check_changes_with_them_and_nothing_is_saved()
    {
        var page = await Open();
        var versions = await page.Locator(".versions > li").CountAsync();
        await Assertions.Expect(Check(page)).ToContainTextAsync("on every weekday a result is back in time");
        await Summary(page, "laboratory").ClickAsync();
        await page.GetByLabel("From arrival to report").FillAsync("30");
        await Assertions.Expect(Check(page)).ToContainTextAsync("it cannot work");
        await Assertions.Expect(page.Locator("#check-says")).ToContainTextAsync("it cannot work");
        await page.GetByLabel("From arrival to report").FillAsync("quick");
        await Assertions.Expect(Check(page)).ToContainTextAsync("“quick” cannot be used here");
        await page.GetByLabel("From arrival to report").FillAsync("0");
        await Assertions.Expect(Check(page)).ToContainTextAsync("on every weekday a result is back in time");
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator(".versions > li")).ToHaveCountAsync(versions);
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task Without_scripts_a_finding_is_mended_by_its_button()
    {
        var page = await Open(scripts: false);
        await Summary(page, "week").ClickAsync();
        await page.Locator("#s-week-samplingDays-thursday").UncheckAsync();
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Check without saving" }).ClickAsync();
        var mend = page.Locator(".findings button").First;
        var says = await mend.InnerTextAsync();
        Assert.StartsWith("Set “", says, StringComparison.Ordinal);
        var before = await page.Locator(".findings li").CountAsync();
        await mend.ClickAsync();
        await Assertions.Expect(page.Locator(".setting.filled")).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator(".findings button", new PageLocatorOptions { HasTextRegex = new Regex($"^{Regex.Escape(says)}$") })).ToHaveCountAsync(0);
        Assert.True(await page.Locator(".findings li").CountAsync() < before, "the finding is still there");
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task With_the_keyboard_alone_a_wrong_number_is_told_mended_and_saved()
    {
        var page = await Open();
        await Reach(page, "document.activeElement.closest('#g-tests > summary')");
        await page.Keyboard.PressAsync("Enter");
        await Reach(page, "document.activeElement.id === 's-test-minDaysPostService'");
        await page.Keyboard.PressAsync("Control+A");
        await page.Keyboard.TypeAsync("20");
        await Reach(page, "document.activeElement.value === 'save'");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Nothing was saved");
        await Assertions.Expect(page.Locator("#s-test-minDaysPostService")).ToHaveValueAsync("20");
        await Assertions.Expect(page.Locator("#s-test-minDaysPostService-problem")).ToContainTextAsync("the floor of rule T1");
        await Reach(page, "document.activeElement.id === 's-test-minDaysPostService'");
        await page.Keyboard.PressAsync("Control+A");
        await page.Keyboard.TypeAsync("29");
        await Reach(page, "document.activeElement.value === 'save'");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Status).First).ToContainTextAsync("Saved as a new version");
        await page.Locator(".versions summary").First.ClickAsync();
        await Assertions.Expect(page.Locator(".versions > li").First).ToContainTextAsync("First day for a test: was 28 days after service, now 29 days after service");
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task Opened_wide_it_has_no_accessibility_violation_and_fits_a_phone()
    {
        var page = await Open();
        await page.EvaluateAsync("document.querySelectorAll('details').forEach(d => d.open = true)");
        await page.IsUsableByAnybody("programme, opened wide");
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task On_paper_every_setting_stands_whole()
    {
        var page = await Open();
        await page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        Assert.True(await page.Locator("#s-test-minDaysPostService").IsVisibleAsync());
        Assert.True(await page.Locator("#s-pregnancy-dryOffDaysBeforeDue").IsVisibleAsync());
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= document.documentElement.clientWidth"), "it is cut at the side");
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task The_picture_says_in_words_what_it_shows()
    {
        var page = await Open();
        var said = await page.Locator("#chains-cows-desc").TextContentAsync();
        foreach (var row in await page.Locator(".chain-table").First.Locator("tbody tr").AllAsync())
        {
            var insemination = await row.Locator("[data-label=Insemination]").InnerTextAsync();
            Assert.Contains($"insemination {insemination}", said, StringComparison.Ordinal);
        }

        Assert.Matches(new Regex("served on Monday, first step GnRH"), said!);
        await page.Context.CloseAsync();
    }

    private static async Task Reach(IPage page, string there)
    {
        for (var i = 0; i < 400; i++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<bool>($"!!({there})"))
            {
                return;
            }
        }

        Assert.Fail($"the keyboard does not reach {there}");
    }
}
