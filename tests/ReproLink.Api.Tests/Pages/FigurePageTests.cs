using System.Net;
using System.Text.RegularExpressions;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Pages;

/// <summary>The page of figures without a browser: every answer with what it is out of, plots that a screen reader and the page's policy can take.</summary>
public sealed partial class FigurePageTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private async Task<(PageClient Page, string Path)> Herd(string facts)
    {
        var herd = await HerdClient.Create(host);
        if (facts.Length > 0)
        {
            await herd.Accept(facts);
        }

        return (new PageClient(host), herd.Address.Replace("/locations/", "/herds/", StringComparison.Ordinal) + "/figures");
    }

    [Fact]
    public async Task Of_an_empty_herd_the_page_says_that_there_is_no_answer_yet()
    {
        var (page, path) = await Herd("");
        using (page)
        {
            var (status, html, _, _) = await page.Get(path);
            Assert.Equal(HttpStatusCode.OK, status);
            Assert.Contains("Do cows become pregnant when served?", html, StringComparison.Ordinal);
            Assert.Contains("No answer yet: nothing to count", html, StringComparison.Ordinal);
            Assert.DoesNotContain("NaN", html, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task An_answer_names_its_numerator_denominator_and_interval_and_leads_to_the_cows()
    {
        var (page, path) = await Herd("""
            [{"sourceId":"c-1","kind":"calving","animal":"1","date":"2026-06-01"},{"sourceId":"s-1","kind":"insemination","animal":"1","date":"2026-08-01"},
             {"sourceId":"c-2","kind":"calving","animal":"2","date":"2026-06-01"},{"sourceId":"s-2","kind":"insemination","animal":"2","date":"2026-08-01"},
             {"sourceId":"e-1","kind":"examination","animal":"1","date":"2026-09-05","method":"ultrasound","outcome":"pregnant"},
             {"sourceId":"e-2","kind":"examination","animal":"2","date":"2026-09-05","method":"ultrasound","outcome":"open"}]
            """);
        using (page)
        {
            var (_, html, _, _) = await page.Get($"{path}?from=2026-06-01&to=2026-10-05");
            Assert.Contains("50 % (1 of 2, 95 % interval 9.5–91 %) of the services with an answer", WebUtility.HtmlDecode(html), StringComparison.Ordinal);
            var (status, cows, _, _) = await page.Get($"{path}/conception-risk?line=all&from=2026-06-01&to=2026-10-05");
            Assert.Equal(HttpStatusCode.OK, status);
            Assert.Matches(new Regex("href=\"[^\"]+/animals/1\""), cows);
            Assert.Contains("in the denominator only", cows, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Every_plot_has_title_description_and_ids_of_its_own_and_no_inline_style()
    {
        var (page, path) = await Herd("");
        using (page)
        {
            var (_, html, _, _) = await page.Get(path);
            var plots = Plots().Matches(html).Select(m => m.Value).ToList();
            Assert.Equal(5, plots.Count);
            Assert.All(plots, p => Assert.Contains("role=\"img\"", p, StringComparison.Ordinal));
            Assert.All(plots, p => Assert.Matches(new Regex("<title id=\"[^\"]+\">[^<]+</title><desc id=\"[^\"]+\">[^<]+</desc>"), p));
            Assert.All(plots, p => Assert.DoesNotContain(" style=", p, StringComparison.Ordinal));
            var ids = Ids().Matches(html).Select(m => m.Groups[1].Value).ToList();
            Assert.Equal(ids.Count, ids.Distinct().Count());
        }
    }

    [Theory]
    [InlineData("?from=2026-10-05&to=2026-09-01")]
    [InlineData("?from=2000-01-01&to=2026-09-01")]
    public async Task A_period_that_cannot_be_is_told_and_the_usual_one_shown(string query)
    {
        var (page, path) = await Herd("");
        using (page)
        {
            var (status, html, _, _) = await page.Get(path + query);
            Assert.Equal(HttpStatusCode.OK, status);
            Assert.Contains("role=\"alert\"", html, StringComparison.Ordinal);
            Assert.Contains("value=\"2026-09-01\"", html, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_figure_that_does_not_exist_is_not_there()
    {
        var (page, path) = await Herd("");
        using (page)
        {
            Assert.Equal(HttpStatusCode.NotFound, (await page.Get(path + "/luck")).Status);
        }
    }

    [GeneratedRegex("<svg [^>]*class=\"plot\".*?</svg>", RegexOptions.Singleline)]
    private static partial Regex Plots();

    [GeneratedRegex("""\bid="([^"]+)""")]
    private static partial Regex Ids();
}
