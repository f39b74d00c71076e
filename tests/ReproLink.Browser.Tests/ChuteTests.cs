using Microsoft.Playwright;

namespace ReproLink.Browser.Tests;

/// <summary>The chute, tube by tube: with the network, without it, with it coming and going; first what would lose or double a record.</summary>
public sealed class ChuteTests(DemoSite site, Chromium chromium) : IClassFixture<DemoSite>, IClassFixture<Chromium>
{
    private static readonly string[] Cows = ["1042", "1043", "1044", "1045", "1046"];

    private static async Task<IPage> Open(IBrowserContext browser, string address, string round, string query = "")
    {
        var page = await browser.NewPageAsync();
        await page.GotoAsync($"{address}{Visit.Herd}/rounds/{round}/chute{query}");
        await Ready(page);
        return page;
    }

    private static Task Ready(IPage page) => Assertions.Expect(page.Locator("#chute[data-ready=yes]")).ToHaveCountAsync(1);

    private static Task Kept(IPage page) => Assertions.Expect(page.Locator("#chute[data-kept=yes]")).ToHaveCountAsync(1);

    private static ILocator Button(IPage page, string name) => page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = name, Exact = true });

    private static async Task Press(IPage page, string name, string next)
    {
        await Button(page, name).ClickAsync();
        await Assertions.Expect(page.Locator("#animal")).ToHaveTextAsync(next);
    }

    private static Task Waiting(IPage page, int count) => Assertions.Expect(page.Locator("#waiting")).ToHaveAttributeAsync("data-waiting", $"{count}");

    [SkippableFact]
    public async Task A_record_whose_answer_is_lost_is_on_the_server_once_when_the_network_is_back()
    {
        await using var cable = new Cable(new Uri(site.Address));
        await using var browser = await chromium.Browser(390);
        var round = await site.Round(Cows);
        var page = await Open(browser, cable.Address, round);
        var before = site.Changes();
        var lost = cable.LoseAnswerOf("PUT ");
        await Press(page, "Drawn", "1043");
        await lost.WaitAsync(TimeSpan.FromSeconds(30));
        await Waiting(page, 1);
        Assert.Equal("001 drawn local", (await site.Tubes(round))[0]);
        cable.PlugIn();
        await page.EvaluateAsync("window.dispatchEvent(new Event('online'))");
        await Waiting(page, 0);
        await Assertions.Expect(page.Locator(".conflict")).ToHaveCountAsync(0);
        // The word and the sample: once.
        Assert.Equal(2, site.Changes() - before);
    }

    [SkippableFact]
    public async Task With_the_network_gone_the_work_goes_on_survives_closing_and_is_sent_once_in_order()
    {
        await using var cable = new Cable(new Uri(site.Address));
        await using var browser = await chromium.Browser(390);
        var round = await site.Round(Cows);
        var page = await Open(browser, cable.Address, round);
        await Kept(page);
        var before = site.Changes();
        cable.Pull();
        await page.EvaluateAsync("document.getElementById('who').value = 'Ana'");
        await Press(page, "Drawn", "1043");
        await Press(page, "Short", "1044");
        await Press(page, "Not found", "1045");
        await Waiting(page, 3);
        await Assertions.Expect(page.Locator("#waiting")).ToContainTextAsync("3 waiting to be sent");
        await page.Picture("chute-offline-phone");

        await page.ReloadAsync();
        await Ready(page);
        await Waiting(page, 3);
        await Assertions.Expect(page.Locator("#progress")).ToContainTextAsync("3 of 5 tubes settled, 2 with blood");
        await page.CloseAsync();
        page = await Open(browser, cable.Address, round, "?tube=" + round + "-002");
        await Assertions.Expect(page.Locator("#stands")).ToHaveTextAsync("short");
        await Button(page, "Undo").ClickAsync();
        await Waiting(page, 4);
        Assert.Equal(["001 planned", "002 planned", "003 planned", "004 planned", "005 planned"], await site.Tubes(round));

        cable.PlugIn();
        await page.EvaluateAsync("window.dispatchEvent(new Event('online'))");
        await Waiting(page, 0);
        await Assertions.Expect(page.Locator("#waiting")).ToBeHiddenAsync();
        Assert.Equal(["001 drawn Ana", "002 planned Ana", "003 not-found Ana", "004 planned", "005 planned"], await site.Tubes(round));
        // Four words, two samples put in and one taken out: each once.
        Assert.Equal(7, site.Changes() - before);
        var drawn = (await site.Get($"/sampling-rounds/{round}"))["tubes"]![0]!;
        Assert.Equal("2026-10-05", (string?)drawn["date"]);
        // The herd's own time, by the service's clock: the browser's runs elsewhere.
        Assert.Matches("^13:0[0-9]$", (string)drawn["time"]!);
    }

    [SkippableFact]
    public async Task Set_offline_by_the_browser_itself_the_page_says_so_and_sends_by_itself_afterwards()
    {
        await using var browser = await chromium.Browser(390);
        var round = await site.Round(Cows);
        var page = await Open(browser, site.Address, round);
        await browser.SetOfflineAsync(true);
        await Press(page, "Drawn", "1043");
        await Assertions.Expect(page.Locator("#waiting")).ToContainTextAsync("No network");
        await browser.SetOfflineAsync(false);
        await Waiting(page, 0);
        Assert.Equal("001 drawn local", (await site.Tubes(round))[0]);
    }

    [SkippableFact]
    public async Task What_somebody_else_said_meanwhile_is_never_overwritten_unseen()
    {
        await using var cable = new Cable(new Uri(site.Address));
        await using var browser = await chromium.Browser(390);
        var round = await site.Round(Cows);
        var page = await Open(browser, cable.Address, round);
        cable.Pull();
        await page.EvaluateAsync("document.getElementById('who').value = 'Ana'");
        await Press(page, "Drawn", "1043");
        await Press(page, "Drawn", "1044");
        await Press(page, "Drawn", "1045");
        foreach (var tube in new[] { "001", "002" })
        {
            await site.Send(HttpMethod.Put, $"/sampling-rounds/{round}/tubes/{round}-{tube}", new { state = "not-drawn", reason = "no-flow", by = "Ben" });
        }

        cable.PlugIn();
        await page.EvaluateAsync("window.dispatchEvent(new Event('online'))");
        await Assertions.Expect(page.Locator(".conflict")).ToHaveCountAsync(2);
        await Assertions.Expect(page.Locator(".conflict").First).ToContainTextAsync("no flow");
        await Assertions.Expect(page.Locator(".conflict .theirs").First).ToContainTextAsync("Ben");
        await Assertions.Expect(page.Locator(".conflict .mine").First).ToContainTextAsync("drawn");
        Assert.Equal(["001 no-flow Ben", "002 no-flow Ben", "003 drawn Ana"], (await site.Tubes(round))[..3]);
        await page.IsUsable("chute with conflicts");
        await page.Picture("chute-conflict-phone");

        await page.ReloadAsync();
        await Ready(page);
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = $"Mine counts: {round}-001, 1042" }).ClickAsync();
        await Assertions.Expect(page.Locator(".conflict")).ToHaveCountAsync(1);
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = $"Leave what is on record: {round}-002, 1043" }).ClickAsync();
        await Assertions.Expect(page.Locator(".conflict")).ToHaveCountAsync(0);
        await Waiting(page, 0);
        Assert.Equal(["001 drawn Ana", "002 no-flow Ben", "003 drawn Ana"], (await site.Tubes(round))[..3]);
    }

    [SkippableFact]
    public async Task Without_a_network_a_new_tube_gets_its_number_later_and_what_was_said_of_it_follows()
    {
        await using var cable = new Cable(new Uri(site.Address));
        await using var browser = await chromium.Browser(390);
        var round = await site.Round("1042", "1043");
        var page = await Open(browser, cable.Address, round);
        cable.Pull();
        await Button(page, "Into a new tube").ClickAsync();
        await Assertions.Expect(page.Locator("#name")).ToHaveTextAsync("new tube");
        await Assertions.Expect(page.Locator("#said")).ToContainTextAsync("Label the new tube by hand");
        await Press(page, "Drawn", "1043");
        await page.GetByText("Who draws, and late additions").ClickAsync();
        await page.GetByLabel("Add an animal to the round").FillAsync("1050");
        await Button(page, "Add").ClickAsync();
        await Assertions.Expect(page.Locator("#animal")).ToHaveTextAsync("1050");
        await Waiting(page, 3);
        await page.ReloadAsync().ContinueWith(_ => { });
        cable.PlugIn();
        await page.GotoAsync($"{cable.Address}{Visit.Herd}/rounds/{round}/chute");
        await Ready(page);
        await Waiting(page, 0);
        Assert.Equal(["001 broken local", "002 planned", "003 drawn local", "004 planned"], await site.Tubes(round));
        await Assertions.Expect(page.Locator("#tubes li")).ToHaveCountAsync(4);
    }

    [SkippableFact]
    public async Task A_label_is_scanned_by_the_camera_or_typed_and_a_foreign_one_is_said_so()
    {
        await using var browser = await chromium.Browser(390);
        await site.Round("1050");
        var round = await site.Round(Cows);
        await browser.AddInitScriptAsync("""
            window.codes = [];
            window.BarcodeDetector = class { async detect() { const c = window.codes.shift(); return c ? [{ rawValue: c }] : []; } };
            Object.defineProperty(navigator, 'mediaDevices', { value: { getUserMedia: async () => new MediaStream() } });
            HTMLMediaElement.prototype.play = async () => {};
            """);
        var page = await Open(browser, site.Address, round);
        await Button(page, "Scan").ClickAsync();
        await page.EvaluateAsync($"window.codes.push('{round}-004')");
        await Assertions.Expect(page.Locator("#animal")).ToHaveTextAsync("1045");
        await Assertions.Expect(page.Locator("#camera")).ToBeHiddenAsync();
        await Button(page, "Drawn").ClickAsync();
        await Assertions.Expect(page.Locator("#said")).ToContainTextAsync("Out of order");

        await page.GetByLabel("Tube or animal").FillAsync("R1-001");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("is not a tube of this round");
        await page.GetByLabel("Tube or animal").FillAsync(" 1044 ");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#animal")).ToHaveTextAsync("1044");
    }

    [SkippableFact]
    public async Task Without_scripts_the_same_page_is_plain_forms()
    {
        await using var browser = await chromium.Browser(scripts: false);
        var other = await site.Round("1050");
        var round = await site.Round(Cows);
        var page = await browser.NewPageAsync();
        await page.GotoAsync($"{site.Address}{Visit.Herd}/rounds/{round}/chute");
        await page.GetByText("Who draws, and late additions").ClickAsync();
        await page.GetByLabel("Who draws").FillAsync("Ana");
        await Press(page, "Drawn", "1043");
        await Assertions.Expect(page.GetByRole(AriaRole.Status).Filter(new LocatorFilterOptions { HasText = "1042" })).ToContainTextAsync("drawn");
        await Press(page, "No flow", "1044");
        await page.GetByRole(AriaRole.Link, new PageGetByRoleOptions { Name = "← previous" }).ClickAsync();
        await Assertions.Expect(page.Locator("#stands")).ToHaveTextAsync("no flow");
        await Press(page, "Undo", "1043");
        await Press(page, "Into a new tube", "1043");
        await Assertions.Expect(page.Locator("#name")).ToHaveTextAsync($"{round}-006");
        await page.GetByLabel("Tube or animal").FillAsync($"{other}-001");
        await Button(page, "Go").ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("labelled for 1050. Do not use it here.");
        await page.GetByText("Who draws, and late additions").ClickAsync();
        await page.GetByLabel("Add an animal to the round").FillAsync("none such");
        await Button(page, "Add").ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("animal");
        Assert.Equal("none such", await page.GetByLabel("Add an animal to the round").InputValueAsync());
        Assert.Equal(["001 drawn Ana", "002 broken local", "003 planned", "004 planned", "005 planned", "006 planned"], await site.Tubes(round));
    }

    [SkippableFact]
    public async Task Without_scripts_a_press_on_a_page_that_is_out_of_date_is_shown_what_is_on_record()
    {
        await using var browser = await chromium.Browser(scripts: false);
        var round = await site.Round(Cows);
        var page = await browser.NewPageAsync();
        await page.GotoAsync($"{site.Address}{Visit.Herd}/rounds/{round}/chute");
        await site.Send(HttpMethod.Put, $"/sampling-rounds/{round}/tubes/1", new { state = "short", time = "06:40", by = "Ben", date = "2026-10-05" });
        await Button(page, "Drawn").ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("short by Ben");
        await Assertions.Expect(page.Locator("#stands")).ToHaveTextAsync("short");
        await Press(page, "Drawn", "1043");
        Assert.Equal("001 drawn local", (await site.Tubes(round))[0]);
    }

    [SkippableFact]
    public async Task On_a_phone_every_target_takes_a_wet_glove_and_the_keyboard_alone_does_it_too()
    {
        var round = await site.Round(Cows);
        await using (var desk = await chromium.Browser())
        {
            await (await Open(desk, site.Address, round)).IsUsableByAnybody("chute", "chute");
        }

        foreach (var width in new[] { 390, 1280 })
        {
            await using var browser = await chromium.Browser(width);
            var page = await Open(browser, site.Address, round);
            var small = await page.EvaluateAsync<string[]>("""
                [...document.querySelectorAll('.chute button, .turn a, .jump input, .chute summary')]
                  .filter(e => e.offsetParent !== null && (e.getBoundingClientRect().height < 48 || e.getBoundingClientRect().width < 48))
                  .map(e => e.outerHTML)
                """);
            Assert.Empty(small);
        }

        await using var keys = await chromium.Browser();
        var one = await Open(keys, site.Address, round);
        await one.TabTo(Button(one, "Drawn"));
        await one.Keyboard.PressAsync("Enter");
        await Assertions.Expect(one.Locator("#animal")).ToHaveTextAsync("1043");
        await one.TabTo(one.Locator("#previous"));
        await one.Keyboard.PressAsync("Enter");
        await Assertions.Expect(one.Locator("#animal")).ToHaveTextAsync("1042");
        await one.TabTo(Button(one, "Undo"));
        await one.Keyboard.PressAsync("Enter");
        await Assertions.Expect(one.Locator("#stands")).ToHaveTextAsync("to draw");
        await Waiting(one, 0);
        Assert.Equal("001 planned local", (await site.Tubes(round))[0]);
    }
}
