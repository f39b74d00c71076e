using CsCheck;
using ReproLink.Api.Reading;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.HerdFiles;

/// <summary>Cells that a spreadsheet would run.</summary>
public sealed class CellGuardTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    [Theory]
    [InlineData("=1+1", "'=1+1")]
    [InlineData("+7", "'+7")]
    [InlineData("-7", "'-7")]
    [InlineData("@x", "'@x")]
    [InlineData("\tx", "'\tx")]
    [InlineData("\rx", "'\rx")]
    [InlineData("'=x", "''=x")]
    [InlineData("'quoted'", "'quoted'")]
    [InlineData("1042", "1042")]
    [InlineData("", "")]
    public void Apply_WhatASpreadsheetWouldRun_IsMadeText(string cell, string written)
    {
        Assert.Equal(written, CellGuard.Apply(cell));
        Assert.Equal(cell, CellGuard.Undo(written));
    }

    [Fact]
    public void Undo_TakesAwayExactlyWhatApplyPut() => Gen.String[Gen.Char["'=+-@\t\r\nab"], 0, 8].Sample(cell =>
    {
        var written = CellGuard.Apply(cell)!;
        return CellGuard.Undo(written) == cell && (written.Length == 0 || !"=+-@\t\r\n".Contains(written[0], StringComparison.Ordinal));
    });

    [Fact]
    public async Task A_list_written_for_people_runs_nothing_and_its_names_are_read_back()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept("""
            [{"sourceId":"a","kind":"animal","animal":"=HYPERLINK(1)","parity":1,"pen":"@4"},
             {"sourceId":"c","kind":"calving","animal":"=HYPERLINK(1)","date":"2026-06-01"},
             {"sourceId":"s","kind":"insemination","animal":"=HYPERLINK(1)","date":"2026-09-07"}]
            """);
        foreach (var path in new[] { "/bleed-list?from=2026-10-05&to=2026-10-11", "/work-calendar?from=2026-10-05&to=2026-10-11" })
        {
            var csv = (await herd.Get(path, "text/csv")).Text;
            Assert.Contains(",'=HYPERLINK(1),", csv, StringComparison.Ordinal);
            Assert.DoesNotContain(",=", csv, StringComparison.Ordinal);
            Assert.DoesNotContain(",@", csv, StringComparison.Ordinal);
        }

        // Copied from the list into a file of results or facts, the name still means her.
        var result = await herd.Post("/test-results", "sourceId,animal,sampled,outcome\nr,'=HYPERLINK(1),2026-10-05,open\n", "text/csv");
        Assert.Equal("=HYPERLINK(1)", (string?)result.Results[0]!["animal"]);
        var fact = await herd.Post("/facts", "sourceId,kind,animal,date\nh,oestrus,'=HYPERLINK(1),2026-10-01\n", "text/csv");
        Assert.Equal("accepted", (string?)fact.Results[0]!["status"]);
        Assert.Single((await herd.Get("/facts?limit=1000"))["facts"].AsArray().Select(f => (string?)f!["animal"]).Distinct());
    }
}
