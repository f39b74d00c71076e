using System.Net;
using ReproLink.Api.Tests.Rounds;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Intake;

public sealed class MappingTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    public const string Mapping = """
        {"columns":{"sourceId":"Lab no","animal":"Cow","tube":"Tube","sampled":"Drawn","outcome":"Result","value":"S-N"},
         "fixed":{"method":"blood","specimen":"serum","unit":"S-N","assay":"herd-default"},
         "outcomes":{"PREG":"pregnant","NOT PREG":"open","DOUBTFUL":"recheck"},"dates":["dd/MM/yyyy","d.M.yyyy"],"decimal":",","delimiter":";"}
        """;

    [Fact]
    public async Task Post_FileOfASender_IsReadByItsMapping()
    {
        var herd = await RoundHerd.Drawn(host, 4);
        var saved = await herd.Put("/result-mappings/valley", Mapping);
        Assert.True(saved.Status == HttpStatusCode.OK, saved.Text);
        Assert.Equal(1, (int)(await herd.Put("/result-mappings/valley", Mapping))["version"]);
        const string File = "LAB NO;Plate;Cow; tube ;Drawn;Result;S-N\r\n1;A1; 1 ;R1-001;05/10/2026;not  preg;0,12\r\n2;A2;;R1-002;5.10.2026;Preg;\r\n3;A3;3;;05/10/2026;??;\r\n4;A4;4;R1-004\r\n";
        var preview = await herd.Post("/test-results/preview?sender=valley&file=monday.csv", File, "text/csv");
        Assert.True(preview.Status == HttpStatusCode.OK, preview.Text);
        Assert.Equal("""{"received":4,"accepted":2,"duplicate":0,"held":0,"rejected":2}""", preview["counts"].ToJsonString());
        Assert.Equal("1;A1; 1 ;R1-001;05/10/2026;not  preg;0,12", (string?)preview["lines"][0]!["text"]);
        Assert.Equal("2026-10-05", (string?)preview["lines"][0]!["read"]!["sampled"]);
        Assert.Equal("open", (string?)preview["lines"][0]!["result"]!["decides"]);
        Assert.Empty((await herd.Get("/received"))["lines"].AsArray());
        Assert.DoesNotContain((await herd.Get("/facts?limit=1000"))["facts"].AsArray(), f => (string?)f!["kind"] == "result");

        var answer = await herd.Post("/test-results?sender=valley&file=monday.csv", File, "text/csv");
        Assert.Equal(["accepted", "accepted", "rejected", "rejected"], answer.Results.Select(r => (string?)r!["status"]));
        Assert.Equal([2, 3, 4, 5], answer.Results.Select(r => (int)r!["line"]!));
        Assert.Equal("outcome", (string?)answer.Results[2]!["problem"]!["field"]);
        var lines = (await herd.Get($"/received?fact={answer.Results[0]!["factId"]}"))["lines"].AsArray();
        Assert.Equal("monday.csv 2 valley 1;A1; 1 ;R1-001;05/10/2026;not  preg;0,12",
            $"{lines.Single()!["file"]} {lines[0]!["line"]} {lines[0]!["sender"]} {lines[0]!["text"]}");
        var timeline = await herd.Get("/animals/1/timeline");
        Assert.Equal(2, (int)timeline["facts"].AsArray().Single(f => (string?)f!["kind"] == "result")!["received"]![0]!["line"]!);
    }

    [Fact]
    public async Task Post_FileWithoutNumbersAndDays_IsIdentifiedByWhatItSaysAndDatedByItsTubes()
    {
        var herd = await RoundHerd.Drawn(host, 2);
        await herd.Put("/result-mappings/valley", """{"columns":{"tube":"Tube","outcome":"Result"},"outcomes":{"-":"open","+":"pregnant"}}""");
        var first = await herd.Post("/test-results?sender=valley", "Tube,Result\nR1-001,-\nR1-002,+\n", "text/csv");
        Assert.Equal(["accepted", "accepted"], first.Results.Select(r => (string?)r!["status"]));
        Assert.Equal("open", (string?)first.Results[0]!["decides"]);
        // The same file again changes nothing; one that says otherwise is a contradiction, not a silent correction.
        var again = await herd.Post("/test-results?sender=valley", "Tube,Result\nR1-001,-\nR1-002,-\n", "text/csv");
        Assert.Equal(["duplicate", "accepted"], again.Results.Select(r => (string?)r!["status"]));
        Assert.Equal("conflict", (string?)(await herd.Get("/animals/2/test-window"))["status"]);
    }

    [Theory]
    [InlineData("Lab no;Cow;Tube;Drawn;Result\n", "errors")]
    [InlineData("Lab no;Cow;Cow;Tube;Drawn;Result;S-N\n", "errors")]
    [InlineData("", "detail")]
    public async Task Post_FileWithOtherHeadings_StoresNothing(string file, string said)
    {
        var herd = await RoundHerd.Drawn(host, 1);
        await herd.Put("/result-mappings/valley", Mapping);
        var answer = await herd.Post("/test-results?sender=valley", file, "text/csv");
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.NotNull(answer.Json![said]);
        Assert.Equal(HttpStatusCode.NotFound, (await herd.Post("/test-results?sender=hill", file, "text/csv")).Status);
    }

    [Fact]
    public async Task Post_CsvOfOurOwnNames_NeedsNoMapping()
    {
        var herd = await RoundHerd.Drawn(host, 1);
        var answer = await herd.Post("/test-results", "sourceId,tube,sampled,outcome,value,unit,assay\nx,R1-001,2026-10-05,open,0.1,S-N,herd-default\n", "text/csv");
        Assert.Equal("accepted", (string?)answer.Results[0]!["status"]);
    }

    [Theory]
    [InlineData("""{}""", "/columns")]
    [InlineData("""{"columns":{"tube":"T"}}""", "/columns")]
    [InlineData("""{"columns":{"outcome":"R"}}""", "/columns")]
    [InlineData("""{"columns":{"tube":"T","outcome":"R","colour":"C"}}""", "/columns/colour")]
    [InlineData("""{"columns":{"tube":"T","outcome":"R"},"outcomes":{"+":"yes"}}""", "/outcomes/+")]
    [InlineData("""{"columns":{"tube":"T","outcome":"R"},"dates":["MM/yyyy"]}""", "/dates/0")]
    [InlineData("""{"columns":{"tube":"T","outcome":"R"},"dates":["dd/MM/yyyy HH:mm"]}""", "/dates/0")]
    [InlineData("""{"columns":{"tube":"T","outcome":"R"},"decimal":","}""", "/decimal")]
    [InlineData("""{"columns":{"tube":"T","outcome":"R"},"fixed":{"animal":"1"}}""", "/fixed/animal")]
    [InlineData("""{"columns":{"tube":"T","outcome":"R"},"delimiter":"#"}""", "/delimiter")]
    public async Task Put_WhatIsWrong_IsNamed(string mapping, string field)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Put("/result-mappings/valley", mapping);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(field, (string?)answer["errors"][0]!["field"]);
        Assert.Equal(HttpStatusCode.NotFound, (await herd.Get("/result-mappings/valley")).Status);
    }
}
