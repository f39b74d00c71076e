using System.Net;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

public sealed class FactCsvTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    [Fact]
    public async Task Post_CsvAndJsonOfTheSameFacts_AreTheSameFacts()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept("""
            [{"sourceId":"1","kind":"animal","animal":"007","parity":0,"pen":"4","identifiers":[{"scheme":"a","id":"1"},{"scheme":"b","id":"2=3"}]},
             {"sourceId":"2","kind":"loss","animal":"007","date":"2026-10-01","examined":true},
             {"sourceId":"3","kind":"confirm","animal":"007","confirms":{"source":"x","sourceId":"y"},"reason":"seen, by me"}]
            """);
        var answer = await herd.Post("/facts", """
            sourceId,kind,animal,date,parity,pen,identifiers,examined,confirms.source,confirms.sourceId,reason
            1,animal,007,,0,4,a=1;b=2=3,,,,

            2,loss,007,2026-10-01,,,,true,,,
            3,confirm,007,,,,,,x,y,"seen, by me"
            """, "text/csv; charset=utf-8");
        Assert.Equal(["duplicate", "duplicate", "duplicate"], answer.Results.Select(r => (string?)r!["status"]));
    }

    [Fact]
    public async Task Post_BadLines_NameTheLine_AndTheOthersAreStored()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/facts", "sourceId,kind,animal,date,parity\r\n1,calving,1,2026-07-01,\r\n2,calving,2,2026-02-30,\r\n3,calving,3\r\n4,animal,4,,many\r\n5,calving,5,2026-07-05,\r\n", "text/csv");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal(["accepted", "rejected", "rejected", "rejected", "accepted"], answer.Results.Select(r => (string?)r!["status"]));
        var problems = answer.Results.Where(r => (string?)r!["status"] == "rejected").Select(r => r!["problem"]!).ToArray();
        Assert.Equal([3, 4, 5], problems.Select(p => (int)p["line"]!));
        Assert.Equal("2026-02-30", (string?)problems[0]["value"]);
        Assert.Equal("/problems/bad-csv-line", (string?)problems[1]["type"]);
        Assert.Equal("3,calving,3", (string?)problems[1]["value"]);
        Assert.Equal("many", (string?)problems[2]["value"]);
        Assert.Equal(2, (await herd.Get("/facts"))["facts"].AsArray().Count);
    }

    [Theory]
    [InlineData("")]
    [InlineData("sourceId,kind,animal,day\n1,calving,1,2026-07-01\n")]
    [InlineData("sourceId,kind,animal,date,date\n1,calving,1,2026-07-01,\n")]
    [InlineData("sourceId,kind,animal,date\n1,calving,\"1,2026-07-01\n2,calving,2,2026-07-01\n")]
    [InlineData("sourceId,kind,animal,date\n1,calving,1\"x,2026-07-01\n")]
    public async Task Post_CsvNotUnderstood_StoresNothing(string csv)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/facts", csv, "text/csv");
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("application/problem+json", answer.MediaType);
        Assert.Empty((await herd.Get("/facts"))["facts"].AsArray());
    }
}
