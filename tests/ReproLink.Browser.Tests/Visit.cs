using System.Globalization;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Deque.AxeCore.Commons;
using Microsoft.Playwright;
using ReproLink.Api.Commands.Demo;

namespace ReproLink.Browser.Tests;

/// <summary>What tests of pages do: open one, look whether anybody can use it, ask the service what it has.</summary>
internal static partial class Visit
{
    public const string Herd = "/herds/demo/larch-hollow";
    private const string Api = "/locations/demo/larch-hollow";

    // The others ask what stands on a page, which is the same by night.
    private static readonly string[] HangOnColours = ["color-contrast", "link-in-text-block"];

    // Run as it is: the package that drives it opens a second page for every question, which takes most of the time.
    private static readonly string Axe = new BundledAxeScriptProvider().GetScript();

    public static async Task<IBrowserContext> Browser(this Chromium chromium, int width = 1280, ColorScheme scheme = ColorScheme.Light, bool scripts = true)
    {
        Skip.If(chromium.Browser is null, Chromium.Missing);
        return await chromium.Browser!.NewContextAsync(new BrowserNewContextOptions
        {
            ViewportSize = new ViewportSize { Width = width, Height = width < 500 ? 844 : 900 },
            ColorScheme = scheme,
            JavaScriptEnabled = scripts,
            HasTouch = width < 500,
        });
    }

    /// <summary>A round of cows that are in the herd, today.</summary>
    public static async Task<string> Round(this DemoSite site, params string[] animals)
    {
        var round = await site.Post("/sampling-rounds", new { date = "2026-10-05", animals });
        return (string)round["round"]!;
    }

    public static async Task<JsonNode> Get(this DemoSite site, string path)
    {
        using var client = new HttpClient();
        return (await client.GetFromJsonAsync<JsonNode>(site.Address + Api + path))!;
    }

    public static Task<JsonNode> Post(this DemoSite site, string path, object body) => site.Send(HttpMethod.Post, path, body);

    public static async Task<JsonNode> Send(this DemoSite site, HttpMethod method, string path, object body)
    {
        using var client = new HttpClient();
        using var request = new HttpRequestMessage(method, site.Address + Api + path) { Content = JsonContent.Create(body) };
        var answer = await client.SendAsync(request);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.IsSuccessStatusCode, text);
        return JsonNode.Parse(text)!;
    }

    /// <summary>Every tube of a round, as “001 drawn Ana”.</summary>
    public static async Task<string[]> Tubes(this DemoSite site, string round) =>
        [.. (await site.Get($"/sampling-rounds/{round}"))["tubes"]!.AsArray().Select(t => $"{((string)t!["tube"]!)[^3..]} {t["reason"] ?? t["state"]} {t["by"]}".TrimEnd())];

    /// <summary>How many changes the herd has seen: every word on a tube is one, and every sample it puts in or takes out.</summary>
    public static long Changes(this DemoSite site) =>
        site.Store.Views.Current(site.Store.Herds.Find(DemoHerd.Location)!, NodaTime.Instant.FromUtc(2026, 10, 5, 12, 0)).Sequence;

    /// <summary>On a phone and at a desk, by day and by night; a named picture is taken of each.</summary>
    public static async Task IsUsableByAnybody(this IPage page, string what, string? picture = null)
    {
        foreach (var (width, height, form) in new[] { (1280, 900, "desktop"), (390, 844, "phone") })
        {
            await page.SetViewportSizeAsync(width, height);
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                await page.EmulateMediaAsync(new PageEmulateMediaOptions { ColorScheme = scheme });
                await page.IsUsable($"{what} {form} {scheme}", scheme == ColorScheme.Light ? [] : HangOnColours);
                if (picture is not null)
                {
                    await page.Picture($"{picture}-{form}-{scheme}".ToLowerInvariant());
                }
            }
        }
    }

    public static async Task IsUsable(this IPage page, string what, params string[] rules)
    {
        if (!await page.EvaluateAsync<bool>("'axe' in window"))
        {
            await page.EvaluateAsync(Axe);
        }

        var violations = await page.EvaluateAsync<string[]>(
            """
            async rules => {
              const found = await axe.run(document, rules.length ? { runOnly: { type: 'rule', values: rules } } : {});
              return found.violations.map(v => `${v.id} ${v.nodes[0].html}`);
            }
            """,
            rules);
        Assert.True(violations.Length == 0, $"{what}: {string.Join("; ", violations)}");
        Assert.True(await page.EvaluateAsync<bool>("document.documentElement.scrollWidth <= document.documentElement.clientWidth"), $"{what} scrolls sideways");
    }

    /// <summary>Looked at by people; kept out of the repository.</summary>
    public static async Task Picture(this IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("SCREENSHOTS") is { Length: > 0 } folder)
        {
            await page.ScreenshotAsync(new PageScreenshotOptions { Path = Path.Combine(folder, $"{name}.png"), FullPage = true });
        }
    }

    public static async Task<int> Sheets(this IPage page, string name, string format = "A4")
    {
        await page.EmulateMediaAsync(new PageEmulateMediaOptions { Media = Media.Print });
        var pdf = await page.PdfAsync(new PagePdfOptions { Format = format, PreferCSSPageSize = true });
        if (Environment.GetEnvironmentVariable("SCREENSHOTS") is { Length: > 0 } folder)
        {
            await File.WriteAllBytesAsync(Path.Combine(folder, $"{name}.pdf"), pdf);
        }

        return SheetOfPaper().Count(System.Text.Encoding.Latin1.GetString(pdf));
    }

    /// <summary>Goes to an element by the tab key alone.</summary>
    public static async Task TabTo(this IPage page, ILocator element)
    {
        for (var i = 0; i < 300; i++)
        {
            if (await element.EvaluateAsync<bool>("e => e === document.activeElement"))
            {
                return;
            }

            await page.Keyboard.PressAsync("Tab");
        }

        Assert.Fail(string.Create(CultureInfo.InvariantCulture, $"the tab key does not reach {element}"));
    }

    [GeneratedRegex(@"/Type\s*/Page\b(?!s)")]
    private static partial Regex SheetOfPaper();
}
