using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ReproLink.Api.Commands.Demo;
using ReproLink.Records;

namespace ReproLink.Browser.Tests;

/// <summary>Every page in a real browser: desktop, phone, print, light, dark, keyboard alone, without scripts.</summary>
public sealed partial class PageTests(DemoSite site, Chromium chromium) : IClassFixture<DemoSite>, IClassFixture<Chromium>
{
    private const string Herd = "/herds/demo/larch-hollow";

    public static TheoryData<string> Pages => [$"{Herd}/week", $"{Herd}/week/others?answer=not-yet&reason=T1", $"{Herd}/today", $"{Herd}/calendar", $"{Herd}/calendar/lines?what=pgf&to=2026-10-18", $"{Herd}/animals/1042", $"{Herd}/animals/1308", $"{Herd}/animals/1308?known=2026-09-10", $"{Herd}/animals/1042/add", $"{Herd}/animals/1042/add?kind=examination", $"{Herd}/find?q=nobody", $"{Herd}/programme", $"{Herd}/figures", $"{Herd}/figures/conception-risk?line=all", $"{Herd}/what-if", $"{Herd}/test-in-herd", "/sign-in", "/settings", "/herds/demo/none/week"];

    private async Task<IPage> Open(string path, int width = 1280, ColorScheme scheme = ColorScheme.Light, bool scripts = true)
    {
        Skip.If(chromium.Browser is null, Chromium.Missing);
        var context = await chromium.Browser!.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = 900 },
            ColorScheme = scheme,
            JavaScriptEnabled = scripts,
        });
        var page = await context.NewPageAsync();
        await page.GotoAsync(site.Address + path);
        return page;
    }

    [SkippableTheory]
    [MemberData(nameof(Pages))]
    public async Task No_page_has_an_accessibility_violation(string path)
    {
        var page = await Open(path);
        await page.IsUsableByAnybody(path);
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task Pale_words_and_a_picture_without_words_would_be_found()
    {
        var page = await Open("/sign-in");
        await page.EvaluateAsync("document.querySelector('main').innerHTML += `<img src='data:,'>`");
        Assert.Contains("image-alt", (await Assert.ThrowsAnyAsync<Exception>(() => page.IsUsable("tampered"))).Message, StringComparison.Ordinal);
        await page.EvaluateAsync("document.querySelector('h1').style.color = '#ccc'");
        Assert.Contains("color-contrast", (await Assert.ThrowsAnyAsync<Exception>(() => page.IsUsable("tampered", "color-contrast"))).Message, StringComparison.Ordinal);
        await page.Context.CloseAsync();
    }

    [SkippableTheory]
    [MemberData(nameof(Pages))]
    public async Task No_page_is_wider_than_a_phone_or_asks_another_site(string path)
    {
        var page = await Open("/sign-in", 390);
        var elsewhere = new List<string>();
        var errors = new List<string>();
        page.Request += (_, request) =>
        {
            if (!request.Url.StartsWith(site.Address, StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal))
            {
                elsewhere.Add(request.Url);
            }
        };
        page.Console += (_, message) =>
        {
            if (message.Type == "error" && !message.Text.Contains("404", StringComparison.Ordinal))
            {
                errors.Add(message.Text);
            }
        };
        await page.GotoAsync(site.Address + path);
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= document.documentElement.clientWidth"), $"{path} scrolls sideways on a phone");
        Assert.Empty(elsewhere);
        Assert.Empty(errors);
        await Picture(page, path, "phone");
        await page.Context.CloseAsync();
        var desktop = await Open(path);
        await Picture(desktop, path, "desktop");
        await desktop.Context.CloseAsync();
    }

    private static string Name(string path) => path.Trim('/').Replace('/', '-');

    // Looked at by people; kept out of the repository.
    private static async Task Picture(IPage page, string path, string form)
    {
        if (Environment.GetEnvironmentVariable("SCREENSHOTS") is { Length: > 0 } folder)
        {
            await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, $"{Name(path)}-{form}.png"), FullPage = true });
        }
    }

    [SkippableFact]
    public async Task The_pages_met_once_can_be_used_by_anybody()
    {
        Skip.If(chromium.Browser is null, Chromium.Missing);
        var link = await site.Store.SignInLinks.Create(KeyRole.Reader, null, NodaTime.Instant.FromUtc(2026, 10, 5, 12, 0), NodaTime.Duration.FromHours(24));
        var page = await Open("/welcome/" + link);
        await page.IsUsableByAnybody("the link that makes a key", "welcome");
        await page.GetByLabel("Your name").FillAsync($"Rea {Guid.NewGuid():N}");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Make my key" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("You are signed in");
        await page.IsUsableByAnybody("the key, shown once", "new-key");
        await page.GotoAsync($"{site.Address}/welcome/{link}");
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("This link is closed");
        await page.IsUsableByAnybody("a link that was used", "closed-link");
        await page.Context.CloseAsync();

        var animal = await Open($"{Herd}/animals/1042");
        await animal.Locator("a", new PageLocatorOptions { HasText = "withdraw" }).First.ClickAsync();
        await Assertions.Expect(animal.Locator("h1")).ToContainTextAsync("Withdraw a fact of 1042?");
        await animal.IsUsableByAnybody("a fact about to be withdrawn", "withdraw");
        await animal.Context.CloseAsync();
    }

    // As wide as the sheet: what does not fit there is cut, or makes the browser shrink all the rest.
    [SkippableTheory]
    [MemberData(nameof(Pages))]
    public async Task Every_page_prints_whole(string path)
    {
        var page = await Open(path);
        var sheets = await page.Sheets(Name(path) + "-print");
        Assert.InRange(sheets, 1, 20);
        await page.SetViewportSizeAsync(Visit.SheetWidth, 1_000);
        var cut = await page.EvaluateAsync<string[]>("""
            [...document.querySelectorAll('main *')]
              .filter(e => e.checkVisibility() && e.getBoundingClientRect().width > 0 && !e.closest('.unseen, svg'))
              .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1 || (getComputedStyle(e).overflowX !== 'visible' && e.scrollWidth > e.clientWidth + 1))
              .map(e => e.outerHTML.slice(0, 200))
            """);
        Assert.True(cut.Length == 0, $"{path} is cut on paper: {string.Join("; ", cut.Take(3))}");
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task The_week_answers_which_cows_and_why_not_the_others_without_scripts()
    {
        var page = await Open($"{Herd}/week", scripts: false);
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Which cows to bleed");
        var rows = await page.Locator("section.day tbody tr:not(.pen)").CountAsync();
        Assert.True(rows > 20, $"{rows} rows");
        await Assertions.Expect(page.Locator("details", new PageLocatorOptions { HasText = "too soon after service" })).ToBeVisibleAsync();
        await page.Locator("summary", new PageLocatorOptions { HasText = "too soon after service" }).ClickAsync();
        await page.Locator("details[open] a").First.ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Animal");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Not yet: from");
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task With_the_keyboard_alone_a_dose_is_recorded_and_told()
    {
        var page = await Open($"{Herd}/today");
        var given = page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new Regex("^GnRH given, ") }).First;
        var name = await given.GetAttributeAsync("aria-label");
        for (var i = 0; i < 400 && await page.EvaluateAsync<string?>("document.activeElement.getAttribute('aria-label')") != name; i++)
        {
            await page.Keyboard.PressAsync("Tab");
        }

        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToHaveTextAsync("Recorded.");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = name! })).ToHaveCountAsync(0);
        var animal = name!["GnRH given, ".Length..];
        await Assertions.Expect(page.Locator("tr", new PageLocatorOptions { Has = page.Locator($"a:text-is('{animal}')") }).First).ToContainTextAsync("done");
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task What_the_gate_holds_is_never_offered_for_ticking()
    {
        var page = await Open($"{Herd}/today");
        var held = page.Locator("tr.stop");
        Assert.True(await held.CountAsync() > 0, "the invented herd has held steps today");
        Assert.Equal(0, await held.Locator("button").CountAsync());
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task The_clipboard_sheet_prints_whole_with_its_cautions()
    {
        var page = await Open($"{Herd}/week");
        await page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        Assert.False(await page.Locator("nav").First.IsVisibleAsync());
        Assert.True(await page.Locator(".cautions").IsVisibleAsync());
        Assert.True(await page.Locator(".box").First.IsVisibleAsync());
        var pdf = await page.PdfAsync(new PagePdfOptions { Format = "A4" });
        var sheets = SheetOfPaper().Count(System.Text.Encoding.Latin1.GetString(pdf));
        var rows = await page.Locator("section.day tbody tr:not(.pen)").CountAsync();
        Assert.InRange(sheets, 2, 3 + (rows / 8));
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= document.documentElement.clientWidth"), "the sheet is cut at the side");
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task A_wrong_key_is_told_at_the_field_and_the_right_one_lets_her_in()
    {
        var (secret, _) = await site.Store.Keys.Create($"vet {Guid.NewGuid():N}", KeyRole.Veterinarian, [DemoHerd.Location], NodaTime.Instant.FromUtc(2026, 10, 5, 12, 0));
        var page = await Open($"/sign-in?return={Uri.EscapeDataString($"{Herd}/programme")}");
        await page.GetByLabel("Your key").FillAsync("rl_wrong");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("not known");
        await page.GetByLabel("Your key").FillAsync(secret);
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("Programme");
        await page.Context.CloseAsync();
    }

    [SkippableFact]
    public async Task The_veterinarian_approves_and_a_bad_day_loses_nothing_typed()
    {
        var page = await Open($"{Herd}/programme", scripts: true);
        await page.GetByLabel(new Regex("holds until")).FillAsync("2020-01-01");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new Regex("^Approve version") }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Choose a day from");
        Assert.Equal("2020-01-01", await page.GetByLabel(new Regex("holds until")).InputValueAsync());
        await page.GetByLabel(new Regex("holds until")).FillAsync("2027-09-01");
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { NameRegex = new Regex("^Approve version") }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("approved");
        await page.Context.CloseAsync();
    }

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)")]
    private static partial Regex SheetOfPaper();
}
