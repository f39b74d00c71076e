using Microsoft.Playwright;

namespace ReproLink.Browser.Tests;

/// <summary>Results on the pages: looked at before they are stored, held ones given to whom they belong.</summary>
public sealed class ResultPageTests(DemoSite site, Chromium chromium) : IClassFixture<DemoSite>, IClassFixture<Chromium>
{
    private static readonly string[] Cows = ["1042", "1043", "1044", "1045", "1046", "1051"];

    private async Task<IPage> Open(IBrowserContext browser, string path)
    {
        var page = await browser.NewPageAsync();
        await page.GotoAsync($"{site.Address}{Visit.Herd}/{path}");
        return page;
    }

    private static ILocator Button(IPage page, string name) => page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = name, Exact = true });

    private async Task<string> Drawn()
    {
        var round = await site.Round(Cows);
        for (var i = 1; i <= Cows.Length; i++)
        {
            await site.Send(HttpMethod.Put, $"/sampling-rounds/{round}/tubes/{i}", new { state = "drawn", date = "2026-10-05", by = "Ana" });
        }

        return round;
    }

    private static string Valley(string round) => $"""
        Lab no;Cow;Tube;Drawn;Result;S-N
        {round}a;1042;{round}-001;05/10/2026;NOT PREG;0,05
        {round}b;1043;{round}-002;05/10/2026;PREG;0,62
        {round}c;1044;{round}-003;05/10/2026;DOUBTFUL;0,25
        {round}d;1046;{round}-004;05/10/2026;PREG;0,71
        {round}e;1045;{round}-005;05/10/2026;PREG
        {round}f;8888;;05/10/2026;NOT PREG;0,04
        """;

    [SkippableFact]
    public async Task A_laboratorys_file_is_read_as_she_says_looked_at_line_by_line_and_only_then_stored()
    {
        await using var browser = await chromium.Browser();
        var round = await Drawn();
        var page = await Open(browser, "results");
        await page.Locator("#file").SetInputFilesAsync(new FilePayload { Name = "monday.csv", MimeType = "text/csv", Buffer = System.Text.Encoding.UTF8.GetBytes(Valley(round)) });
        await page.Locator("#sender").FillAsync($"valley-{round}");
        await Button(page, "Show what it would do").First.ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToHaveTextAsync("How this file is read");
        Assert.Equal("Cow", await page.GetByRole(AriaRole.Main).GetByLabel("Animal", new LocatorGetByLabelOptions { Exact = true }).InputValueAsync());
        Assert.Equal("", await page.GetByLabel("How it writes dates").InputValueAsync());
        await Assertions.Expect(page.Locator("#dates-hint")).ToContainTextAsync("both ways");
        await page.IsUsable("mapping");
        await page.Picture("mapping-desktop");
        await page.GetByLabel("Value", new PageGetByLabelOptions { Exact = true }).SelectOptionAsync("S-N");
        await page.GetByLabel("How it writes dates").SelectOptionAsync("dd/MM/yyyy");
        await page.GetByLabel("Before the decimals stands").SelectOptionAsync(",");
        await page.GetByLabel("“PREG” means").SelectOptionAsync("pregnant");
        await page.GetByLabel("“NOT PREG” means").SelectOptionAsync("open");
        await page.GetByLabel("“DOUBTFUL” means").SelectOptionAsync("recheck");
        await Button(page, "Save this, and show what the file would do").ClickAsync();

        await Assertions.Expect(page.Locator(".lead")).ToContainTextAsync("6 lines: 3 would be taken in, 0 on record already, 2 would wait for a person, 1 cannot be read. Nothing is stored yet.");
        Assert.Equal(0, (int)(await site.Get("/received?limit=1000&sender=valley-" + round))["lines"]!.AsArray().Count);
        await Assertions.Expect(page.Locator("tr", new PageLocatorOptions { HasText = $"{round}c;" })).ToContainTextAsync("Inconclusive: treat her as pregnant. Prostaglandin stays withheld");
        await Assertions.Expect(page.Locator(".cautions")).ToBeVisibleAsync();
        await page.IsUsable("preview");
        await page.Picture("preview-desktop");
        // Pressed twice: stored once.
        await page.EvaluateAsync("const form = document.querySelector('form[action$=\"/results/store\"]'); fetch(form.action, { method: 'POST', body: new FormData(form) })");
        await Button(page, "Store this file").ClickAsync();
        await Assertions.Expect(page.Locator("h1")).ToContainTextAsync("Received, no.");
        await Assertions.Expect(page.Locator(".lead")).ToContainTextAsync("6 lines: 3 taken in, 0 on record already, 2 waiting for a person, 1 could not be read.");
        Assert.Equal(6, (await site.Get("/received?limit=1000&sender=valley-" + round))["lines"]!.AsArray().Count);
        await page.Picture("received-desktop");

        // Traced from the animal to its line.
        await page.GotoAsync($"{site.Address}{Visit.Herd}/animals/1043");
        await page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "line 3 of “monday.csv”" }).First.ClickAsync();
        await Assertions.Expect(page.Locator("#line-3")).ToContainTextAsync($"{round}b;1043");
    }

    [SkippableFact]
    public async Task A_held_result_is_given_to_its_animal_by_one_key_and_taken_back()
    {
        await using var browser = await chromium.Browser();
        // Two heifers of their own: what other tests say of the cows would contradict it.
        var round = await site.Round("3023", "3027");
        await site.Send(HttpMethod.Put, $"/sampling-rounds/{round}/tubes/1", new { state = "drawn", date = "2026-10-05", by = "Ana" });
        await site.Post("/test-results", new[] { new { sourceId = $"k-{round}", source = "lab", animal = "3027", tube = $"{round}-001", sampled = "2026-10-05", outcome = "open" } });
        var page = await Open(browser, "results/held");
        var card = page.Locator(".held", new PageLocatorOptions { HasText = $"k-{round}" });
        await Assertions.Expect(card).ToContainTextAsync("The tube is another animal's than the one named.");
        await Assertions.Expect(card).ToContainTextAsync("3023, 3027");
        await page.IsUsable("held");
        await page.Picture("held-desktop");

        // Never while she is typing.
        await card.Locator("input[name=reason]").FillAsync("");
        await card.Locator("input[name=reason]").PressAsync("1");
        Assert.Equal("1", await card.Locator("input[name=reason]").InputValueAsync());
        await card.Locator("input[name=reason]").FillAsync("");

        var hers = await card.Locator("button[value='3023']").GetAttributeAsync("data-key");
        var others = await card.Locator("button[value='3027']").GetAttributeAsync("data-key");
        await card.FocusAsync();
        await page.Keyboard.PressAsync(others!);
        await Assertions.Expect(page.GetByRole(AriaRole.Alert).First).ToContainTextAsync($"The label of {round}-001 is that of 3023, not of 3027.");
        await page.Locator(".held", new PageLocatorOptions { HasText = $"k-{round}" }).FocusAsync();
        await page.Keyboard.PressAsync(hers!);
        await Assertions.Expect(page.Locator(".done-held")).ToContainTextAsync("It is 3023's. Open");
        await page.Picture("held-done-desktop");
        await page.Locator(".done-held").GetByRole(AriaRole.Button, new LocatorGetByRoleOptions { Name = "Undo" }).ClickAsync();
        await Assertions.Expect(page.Locator(".done-held")).ToHaveCountAsync(0);
        var again = page.Locator(".held", new PageLocatorOptions { HasText = $"k-{round}" });
        await again.FocusAsync();
        await page.Keyboard.PressAsync("d");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Alert).First).ToContainTextAsync("reason");
        await page.Locator(".held", new PageLocatorOptions { HasText = $"k-{round}" }).Locator("input[name=reason]").FillAsync("tubes were swapped");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator(".done-held")).ToContainTextAsync("set aside");
        await Assertions.Expect(page.Locator("tr", new PageLocatorOptions { HasText = $"k-{round}" }).First).ToContainTextAsync("tubes were swapped");
    }

    [SkippableFact]
    public async Task One_typed_result_without_scripts_says_what_is_wrong_at_the_field_and_loses_nothing()
    {
        await using var browser = await chromium.Browser(390, scripts: false);
        var page = await Open(browser, "results");
        var form = page.Locator("#typed");
        await form.GetByLabel("Animal").FillAsync("1045");
        await form.GetByLabel("Day drawn").FillAsync("2026-12-24");
        await form.GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(page.Locator("#sampled-problem")).ToContainTextAsync("at most 1 day after the herd's today");
        await Assertions.Expect(page.Locator("#outcome-problem")).ToContainTextAsync("“Result” nor “Value” says what was found");
        Assert.Equal("1045", await form.GetByLabel("Animal").InputValueAsync());
        await page.Picture("results-phone-problems");
        await form.GetByLabel("Day drawn").FillAsync("2026-10-05");
        await form.GetByLabel("Result").SelectOptionAsync("open");
        await form.GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(page.Locator(".lead")).ToContainTextAsync("1 line: 1 would be taken in");
        await page.Picture("typed-preview-phone");
        await Button(page, "Change it").ClickAsync();
        Assert.Equal("1045", await page.Locator("#typed").GetByLabel("Animal").InputValueAsync());
        await page.Locator("#typed").GetByRole(AriaRole.Button).ClickAsync();
        await Button(page, "Store this result").ClickAsync();
        await Assertions.Expect(page.Locator(".lead")).ToContainTextAsync("1 line: 1 taken in");
    }

    [SkippableFact]
    public async Task Every_page_of_results_can_be_used_by_anybody_on_a_phone_and_at_a_desk()
    {
        var round = await Drawn();
        await site.Post("/test-results", new object[]
        {
            new { sourceId = $"u-{round}", source = "lab", animal = "1044", tube = $"{round}-002", sampled = "2026-10-05", outcome = "open" },
            new { sourceId = $"v-{round}", source = "lab", tube = $"{round}-001", sampled = "2026-10-05", value = 0.2, unit = "ng/mL", assay = "another" },
        });
        var batch = (int)(await site.Get("/received?limit=1000"))["lines"]!.AsArray().Last()!["batch"]!;
        foreach (var (path, name) in new[] { ("results", "results"), ("results/held", "held"), ($"results/received/{batch}", "received") })
        {
            await using var browser = await chromium.Browser();
            var page = await Open(browser, path);
            await page.IsUsableByAnybody(path, name);
        }

        await using var paper = await chromium.Browser();
        var printed = await Open(paper, $"results/received/{batch}");
        Assert.Equal(1, await printed.Sheets("received-print"));
        Assert.True(await printed.Locator(".cautions").IsVisibleAsync());
    }
}
