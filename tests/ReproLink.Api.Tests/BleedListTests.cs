using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

public sealed class BleedListTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private const string Facts = """
        [{"sourceId":"a-1","kind":"animal","animal":"1042","parity":1,"pen":"4","identifiers":[{"scheme":"us.bovine","id":"840003123456789"}]},
         {"sourceId":"c-1","kind":"calving","animal":"1042","date":"2026-07-01"},
         {"sourceId":"s-1","kind":"insemination","animal":"1042","date":"2026-09-10","time":"08:00"},
         {"sourceId":"c-2","kind":"calving","animal":"7","date":"2026-07-01"},
         {"sourceId":"s-2","kind":"insemination","animal":"7","date":"2026-09-30"},
         {"sourceId":"c-3","kind":"calving","animal":"8","date":"2026-09-01"},
         {"sourceId":"c-4","kind":"calving","animal":"9","date":"2026-09-01"},
         {"sourceId":"g-4","kind":"departure","animal":"9","date":"2026-10-01"}]
        """;

    [Fact]
    public async Task Get_TheWorkedExample_IsListedAsTheContractSays()
    {
        var herd = await HerdClient.Create(host);
        var ids = await herd.Accept(Facts);
        var list = await herd.Get("/bleed-list?from=2026-10-05&to=2026-10-11");
        var expected = JsonNode.Parse($$$"""
            [{"date":"2026-10-08","weekday":"thursday",
              "animals":[{"animal":"1042","pen":"4","identifiers":[{"scheme":"us.bovine","id":"840003123456789"}],"daysPostService":28,"daysInMilk":99,"parity":1,
                "need":"first-test","window":{"opens":"2026-10-08","target":"2026-10-08","closes":"2026-10-08","changesOn":"2026-10-09"},"overdue":false,
                "serves":{"step":"pgf","date":"2026-10-12"},
                "reasons":[{"rule":"T1","date":"2026-10-08","text":"28 days after the service of 10 September 2026","facts":["{{{ids[2]}}}"]}]}],
              "totals":{"animals":1,"tubes":1,"labels":1,"needles":3}}]
            """);
        Assert.True(JsonNode.DeepEquals(expected, list["days"]), list.Text);
        Assert.Equal("2026-10-05", (string?)list["asOf"]);
        Assert.Equal(ApiHostFixture.Start, (string?)list["knownAt"]);
        Assert.NotEmpty(list["cautions"].AsArray());
        Assert.Equal("""{"version":0,"defaults":true}""", list["programme"].ToJsonString());
        Assert.Equal(list.Text, (await herd.Get("/bleed-list")).Text);
    }

    [Fact]
    public async Task Get_EveryAnimalInTheHerd_AppearsOnce()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(Facts);
        var list = await herd.Get("/bleed-list?detail=all");
        var rest = list["notListed"].AsArray();
        Assert.All(rest, r => Assert.Equal((int)r!["count"]!, r["animals"]!.AsArray().Count));
        var names = list["days"].AsArray().Concat(rest).SelectMany(d => d!["animals"]!.AsArray()).Select(a => (string?)a!["animal"]);
        // 9 has left: she is outside.
        Assert.Equal(["1042", "7", "8"], names.Order());
        Assert.All((await herd.Get("/bleed-list"))["notListed"].AsArray(), r => Assert.Null(r!["animals"]));
    }

    [Fact]
    public async Task Get_Csv_OneLineAnAnimal_EachWithTheCaution()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(Facts);
        var csv = await herd.Get("/bleed-list", "text/csv");
        Assert.Equal("text/csv", csv.MediaType);
        var lines = csv.Text.Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(2, lines.Length);
        Assert.StartsWith("2026-10-08,thursday,4,1042,us.bovine=840003123456789,28,99,1,first-test,2026-10-08,2026-10-08,2026-10-08,2026-10-09,false,pgf,2026-10-12,", lines[1], StringComparison.Ordinal);
        Assert.Contains("veterinarian's order", lines[1], StringComparison.Ordinal);
        Assert.Contains("asthma", lines[1], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("text/html,application/xhtml+xml,*/*;q=0.8", "application/json")]
    [InlineData("text/csv;q=0.5,application/json;q=0.4", "text/csv")]
    [InlineData("text/*", "text/csv")]
    [InlineData("*/*", "application/json")]
    public async Task Get_Accept_ChoosesTheForm(string accept, string mediaType)
    {
        var herd = await HerdClient.Create(host);
        Assert.Equal(mediaType, (await herd.Get("/bleed-list", accept)).MediaType);
    }

    [Fact]
    public async Task Get_Pen_ShowsThatPenOnly()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(Facts);
        Assert.Single((await herd.Get("/bleed-list?pen=4"))["days"].AsArray());
        Assert.Empty((await herd.Get("/bleed-list?pen=5"))["days"].AsArray());
    }

    [Theory]
    [InlineData("?to=2026-10-04", "to")]
    [InlineData("?from=2026-10-05&to=2027-10-07", "to")]
    [InlineData("?knownAt=2026-10-05T12:00:01Z", "knownAt")]
    [InlineData("?asOf=today", "asOf")]
    [InlineData("?detail=some", "detail")]
    public async Task Get_BadQuery_NamesTheParameter(string query, string parameter)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Get("/bleed-list" + query);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(parameter, (string?)Assert.Single(answer["errors"].AsArray())!["field"]);
    }
}
