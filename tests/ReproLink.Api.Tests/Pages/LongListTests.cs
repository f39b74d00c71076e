using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Pages;

/// <summary>A herd with more cows to bleed than a page shows at once: nobody is lost behind what is folded.</summary>
public sealed partial class LongListTests
{
    private const int Cows = 1_200;

    // Folded: the second day, and of the first day the pens beyond the first few hundred lines.
    [Fact]
    public async Task Every_cow_of_a_long_week_is_reached_by_its_links()
    {
        await using var host = new ApiHostFixture();
        var (herd, pages) = await Create(host);
        var list = await herd.Get("/bleed-list?from=2026-10-05&to=2026-10-11");
        Assert.Equal(2, list["days"].AsArray().Count);
        var wanted = list["days"].AsArray().SelectMany(d => d!["animals"]!.AsArray()).Select(a => (string)a!["animal"]!).ToHashSet();
        Assert.Equal(Cows, wanted.Count);

        using var browser = new PageClient(host);
        var (seen, asked) = (new HashSet<string>(), new HashSet<string>());
        var ahead = new Queue<string>([$"{pages}/week"]);
        while (ahead.TryDequeue(out var path))
        {
            if (!asked.Add(path))
            {
                continue;
            }

            var page = await browser.Get(path);
            Assert.Equal(HttpStatusCode.OK, page.Status);
            var rows = Rows().Matches(page.Html).Select(m => m.Groups[1].Value).ToList();
            Assert.True(rows.Count <= 400, $"{path} has {rows.Count} lines");
            seen.UnionWith(rows);
            foreach (Match more in More().Matches(page.Html))
            {
                ahead.Enqueue(WebUtility.HtmlDecode(more.Groups[1].Value).Split('#')[0]);
            }
        }

        Assert.True(wanted.SetEquals(seen), $"{wanted.Except(seen).Count()} are not reached, e.g. {wanted.Except(seen).FirstOrDefault()}");
    }

    [Theory]
    [InlineData("/today")]
    [InlineData("/calendar")]
    [InlineData("/calendar/lines?what=draw&to=2026-10-18")]
    [InlineData("/week/others?answer=not-needed&reason=planned-earlier&from=2026-10-09")]
    [InlineData("/figures")]
    [InlineData("/rounds/start")]
    public async Task Other_pages_of_a_large_herd_answer(string path)
    {
        await using var host = new ApiHostFixture();
        var (_, pages) = await Create(host);
        using var browser = new PageClient(host);
        var page = await browser.Get(pages + path);
        Assert.True(page.Status == HttpStatusCode.OK, page.Html);
    }

    // Half of them are due on Monday the 5th, half on Thursday the 8th; in twelve pens, some in none.
    private static async Task<(HerdClient Herd, string Pages)> Create(ApiHostFixture host)
    {
        var herd = await HerdClient.Create(host);
        await herd.Put("/programme", """{"inForceFrom":"2026-08-01","week":{"maxTubesPerDay":10000}}""");
        foreach (var some in Enumerable.Range(1, Cows).Chunk(200))
        {
            await herd.Accept(JsonSerializer.Serialize(some.SelectMany(Facts)));
        }

        return (herd, herd.Address.Replace("/locations/", "/herds/", StringComparison.Ordinal));
    }

    private static IEnumerable<Dictionary<string, object>> Facts(int cow)
    {
        var animal = $"L{cow:0000}";
        var card = new Dictionary<string, object> { ["sourceId"] = $"a-{cow}", ["kind"] = "animal", ["animal"] = animal, ["parity"] = 1 };
        if (cow % 13 != 0)
        {
            card["pen"] = $"{cow % 13}";
        }

        yield return card;
        yield return new() { ["sourceId"] = $"c-{cow}", ["kind"] = "calving", ["animal"] = animal, ["date"] = "2026-06-01" };
        yield return new() { ["sourceId"] = $"s-{cow}", ["kind"] = "insemination", ["animal"] = animal, ["date"] = cow % 2 == 0 ? "2026-09-01" : "2026-09-10" };
    }

    [GeneratedRegex("<th scope=\"row\"[^>]*><a href=\"[^\"]*/animals/(L[0-9]+)\"")]
    private static partial Regex Rows();

    [GeneratedRegex("<a class=\"more\" href=\"([^\"]*)\"")]
    private static partial Regex More();
}
