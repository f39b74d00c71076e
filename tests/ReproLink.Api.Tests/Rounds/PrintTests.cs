using System.Net;
using System.Text.RegularExpressions;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Rounds;

public sealed partial class PrintTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    [Theory]
    [InlineData("", 24, 1)]
    [InlineData("?layout=letter-3x10", 30, 1)]
    [InlineData("?layout=roll-50x25", 1, 26)]
    [InlineData("?layout=custom&rows=4&columns=2&marginTop=10&marginLeft=8&gapAcross=3&gapDown=2", 8, 4)]
    [InlineData("?skip=23", 24, 3)]
    public async Task Labels_ShareTheSheetsAndLieOnThem(string query, int perPage, int pages)
    {
        var herd = await RoundHerd.Create(host, 26);
        await herd.Freeze();
        var page = await herd.Get("/sampling-rounds/R1/labels" + query);
        Assert.True(page.Status == HttpStatusCode.OK, page.Text);
        Assert.Equal(26, Labels().Count(page.Text));
        Assert.Equal(26, Qr().Count(page.Text));
        var needed = query == "?skip=23" ? pages : (26 + perPage - 1) / perPage;
        Assert.Equal(needed, page.Text.Split("<section").Length - 1);
        var (width, height) = (Number(page.Text, @"@page \{ size: ([\d.]+)mm"), Number(page.Text, @"@page \{ size: [\d.]+mm ([\d.]+)mm"));
        var (wide, high) = (Number(page.Text, @"\.label \{ position: absolute; width: ([\d.]+)mm"), Number(page.Text, @"\.label [^}]*height: ([\d.]+)mm"));
        Assert.All(Places().Matches(page.Text), m => Assert.True(
            double.Parse(m.Groups[1].Value) + wide <= width + 0.02 && double.Parse(m.Groups[2].Value) + high <= height + 0.02, m.Value));
        Assert.DoesNotContain("http", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Labels_NamesOfAnyScriptAndLength_AreShownOrVisiblyShortened()
    {
        var herd = await HerdClient.Create(host);
        string[] names = ["<b>Ida & \\u0022Co\\u0022</b>", "گاو شماره ۱۲", "乳牛一二三四五六七八九十一二三四五六七八九十", "840003123456789012345678901234567890123456789012345678901234567890"];
        await herd.Accept($"[{string.Join(',', names.Select((n, i) => $$"""{"sourceId":"{{i}}","kind":"animal","animal":"{{n}}"}"""))}]");
        await herd.Freeze($$"""{"date":"2026-10-08","animals":[{{string.Join(',', names.Select(n => $"\"{n}\""))}}]}""");
        var page = (await herd.Get("/sampling-rounds/R1/labels?layout=roll-50x25")).Text;
        Assert.DoesNotContain("<b>", page, StringComparison.Ordinal);
        Assert.Contains("&lt;b&gt;Ida &amp;", page, StringComparison.Ordinal);
        Assert.Contains("<bdi>گاو شماره ۱۲</bdi>", WebUtility.HtmlDecode(page), StringComparison.Ordinal);
        var number = AnimalLine().Matches(page).Select(m => WebUtility.HtmlDecode(m.Groups[1].Value)).Single(t => t.StartsWith("84000", StringComparison.Ordinal));
        Assert.Contains('…', number);
        Assert.EndsWith("7890", number, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("?layout=a5", "layout")]
    [InlineData("?layout=custom&rows=30&columns=10", "layout")]
    [InlineData("?rows=0", "rows")]
    [InlineData("?marginTop=x", "marginTop")]
    [InlineData("?tubes=R1-001,R9-001", "tubes")]
    [InlineData("?colour=red", "colour")]
    public async Task Labels_WhatIsWrong_IsNamed(string query, string field)
    {
        var herd = await RoundHerd.Create(host, 1);
        await herd.Freeze();
        var answer = await herd.Get("/sampling-rounds/R1/labels" + query);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(field, (string?)answer["errors"][0]!["field"]);
    }

    [Fact]
    public async Task Manifest_ListsTheTubesOfTheDispatch()
    {
        var herd = await RoundHerd.Drawn(host, 2);
        var csv = await herd.Get("/sampling-rounds/R1/manifest?dispatch=1");
        Assert.Equal("text/csv", csv.MediaType);
        Assert.Contains("North Ridge,R1,1,R1-001,1,31,serum,2026-10-05,06:41,Ana,full,Pregnant or open? First test after the service.,\r\n", csv.Text, StringComparison.Ordinal);
        Assert.Equal(3, csv.Text.Trim().Split('\n').Length);
        Assert.Single((await herd.Get("/sampling-rounds/R1/manifest?dispatch=2")).Text.Trim().Split('\n'));
        var page = await herd.Get("/sampling-rounds/R1/manifest", "text/html");
        Assert.Equal("text/html", page.MediaType);
        Assert.Contains("R1-002", page.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("http", page.Text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotAcceptable, (await herd.Get("/sampling-rounds/R1/manifest", "image/png")).Status);
    }

    private static double Number(string text, string pattern) => double.Parse(Regex.Match(text, pattern).Groups[1].Value);

    [GeneratedRegex("class=\"label\"")]
    private static partial Regex Labels();

    [GeneratedRegex("<svg class=\"qr\"")]
    private static partial Regex Qr();

    [GeneratedRegex(@"class=""label"" style=""left:([\d.]+)mm;top:([\d.]+)mm""")]
    private static partial Regex Places();

    [GeneratedRegex("<div class=\"animal\"[^>]*><bdi>([^<]*)</bdi>")]
    private static partial Regex AnimalLine();
}
