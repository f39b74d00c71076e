using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Commands.Demo;
using ReproLink.Api.Tests.Support;
using ReproLink.Api.WhatIf;

namespace ReproLink.Api.Tests.WhatIf;

public sealed class WhatIfTests
{
    /// <summary>Worked example, own arithmetic on invented inputs: blood test on day 28, result next day, a week to the next service.</summary>
    private const string WorkedExample = """
        {"programmes":[{"name":"A","days":{"test":28,"result":1,"nextService":7,"confirmation":60}},
           {"name":"A0","days":{"test":28,"result":1,"nextService":7,"confirmation":60},"rates":{"loss":0},"test":{"sensitivity":1,"specificity":1}}],
         "rates":{"firstServiceDays":70,"pregnantFirst":0.42,"pregnantLater":0.36,"returns":0.5,"loss":0.08},
         "test":{"sensitivity":0.98,"specificity":0.95,"inconclusive":0},
         "prices":{"lastServiceDay":1000,"dayOpen":3,"test":3,"confirmation":3,"service":20,"lostPregnancy":555}}
        """;

    [Fact]
    public async Task Post_TheWorkedExample_IsReproducedAndWithoutLimitsBecauseEveryNumberWasGiven()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/what-if", WorkedExample);
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal(129.4700396825397, Value(answer, 0, "days-open"), 1e-9);
        Assert.Equal(115.91666666666666, Value(answer, 1, "days-open"), 1e-9);
        Assert.Equal(2.2182786157941458, Value(answer, 0, "pregnancies-ended"), 1e-9);
        Assert.Equal(0.7357379797017599, Value(answer, 0, "pregnant-by-150"), 1e-9);
        // The example serves for ever; by day 1,000 all but one cow in 300,000 is pregnant.
        Assert.Equal(258.4384600216899, Value(answer, 0, "money"), 0.005);
        Assert.Null(Figure(answer, 0, "days-open")["value"]!["low"]);
        Assert.Contains("days were given", (string?)Figure(answer, 0, "pgf")["value"]!["noValue"], StringComparison.Ordinal);
        Assert.NotEmpty(answer["cautions"].AsArray());
        Assert.Contains(answer["assumptions"].AsArray(), a => ((string)a!).Contains("none is culled", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Post_ASlowerLaboratory_CostsDaysOpenByTheHerdsOwnNumbersWithLimits()
    {
        await using var host = new ApiHostFixture();
        var herd = await Demo(host);
        var answer = await herd.Post("/what-if", """{"programmes":[{"name":"As now"},{"name":"Slower","changes":{"laboratory":{"turnaroundWorkingDays":4}}}]}""");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        var more = Figure(answer, 1, "days-open")["fromFirst"]!;
        Assert.True((double)more["low"]! > 0 && (double)more["value"]! > (double)more["low"]! && (double)more["high"]! > (double)more["value"]!);
        var later = answer["rates"].AsArray().Single(r => (string?)r!["rate"] == "pregnantLater")!["value"]!;
        Assert.Equal((double)(int)later["numerator"]! / (int)later["denominator"]!, (double)later["value"]!, 1e-12);
        Assert.True((double)later["low"]! < (double)later["value"]!);
        // What the check says of a Thursday is what is reckoned with.
        var check = (await herd.Post("/programme/check", """{"laboratory":{"turnaroundWorkingDays":4}}"""))["chains"].AsArray();
        var thursday = check.Single(c => (string?)c!["weekday"] == "thursday" && (string?)c["from"] == "service" && c["heifer"] is null)!;
        var course = Programme(answer, 1)["course"]!.AsArray().Single(c => (string?)c!["weekday"] == "thursday")!;
        Assert.Equal((int)thursday["intervalDays"]!, (int)course["nextServiceIfOpen"]!);
        Assert.Contains(Programme(answer, 1)["sentences"]!.AsArray(), s => ((string)s!).Contains("days more than under “As now”", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Post_TheDocumentsExample_IsAnswered()
    {
        await using var host = new ApiHostFixture();
        var answer = await (await HerdClient.Create(host)).Post("/what-if", WhatIfExamples.Asked);
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal(3, answer["programmes"].AsArray().Count);
        Assert.Equal(31, Programme(answer, 0)["curve"]!.AsArray().Count);
    }

    [Fact]
    public async Task Post_AHerdWithoutRecords_IsToldWhichNumbersAreMissingAllAtOnce()
    {
        await using var host = new ApiHostFixture();
        var refused = await (await HerdClient.Create(host)).Post("/what-if", """{"programmes":[{"name":"As now"},{"name":"Other"}]}""");
        Assert.Equal(HttpStatusCode.BadRequest, refused.Status);
        Assert.Equal(
            ["/rates/firstServiceDays", "/rates/loss", "/rates/pregnantFirst", "/rates/pregnantLater", "/rates/returns"],
            refused["errors"].AsArray().Select(e => (string)e!["field"]!).Order(StringComparer.Ordinal));
        Assert.All(refused["errors"].AsArray(), e => Assert.Contains("nothing to count", (string?)e!["detail"], StringComparison.Ordinal));
    }

    [Fact]
    public async Task Post_EverythingWrong_IsNamedFieldByFieldAndNothingIsA500()
    {
        await using var host = new ApiHostFixture();
        var refused = await (await HerdClient.Create(host)).Post("/what-if", """
            {"programmes":[
               {"name":"A","changes":{"test":{"minDaysPostService":27},"week":{"samplingDays":[]},"laboratory":{"turnaroundWorkingDays":-1,"speed":2}}},
               {"name":"A","days":{"test":28}},
               {"changes":{"resynchronisation":{"protocol":"none"}},"test":{"study":"ricci-2014-milk-day-32"}},
               {"name":"D","changes":5}],
             "rates":{"firstServiceDays":1000,"pregnantFirst":0,"pregnantLater":0.36,"returns":1.5,"loss":null},
             "test":{"study":"nobody-2020"},"prices":{"dayOpen":-3},"from":"2026-12-01","to":"2026-10-01","herdSize":4}
            """);
        Assert.Equal(HttpStatusCode.BadRequest, refused.Status);
        string[] expected =
        [
            "/programmes/0/changes/test/minDaysPostService", "/programmes/0/changes/week/samplingDays", "/programmes/0/changes/laboratory/turnaroundWorkingDays",
            "/programmes/0/changes/laboratory/speed", "/programmes/1/name", "/programmes/1/days/result", "/programmes/1/days/nextService",
            "/programmes/1/days/confirmation", "/programmes/2/name", "/programmes/2/changes", "/programmes/2/test/study", "/programmes/3/changes",
            "/rates/firstServiceDays", "/rates/pregnantFirst", "/rates/returns", "/rates/loss", "/test/study", "/prices/dayOpen", "/prices/lastServiceDay", "/to", "/herdSize",
        ];
        var fields = refused["errors"].AsArray().Select(e => (string)e!["field"]!).ToList();
        Assert.All(expected, field => Assert.Contains(field, fields));
        Assert.Contains(refused["errors"].AsArray(), e => ((string)e!["detail"]!).Contains("do not agree among themselves", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("""{"programmes":[]}""")]
    [InlineData("""{}""")]
    [InlineData("""{"programmes":[{"name":"1"},{"name":"2"},{"name":"3"},{"name":"4"},{"name":"5"}]}""")]
    [InlineData("""{"programmes":"all"}""")]
    [InlineData("""{"programmes":[7]}""")]
    [InlineData("""[]""")]
    public async Task Post_NotOneToFourProgrammes_IsRefused(string body)
    {
        await using var host = new ApiHostFixture();
        Assert.Equal(HttpStatusCode.BadRequest, (await (await HerdClient.Create(host)).Post("/what-if", body)).Status);
    }

    [Fact]
    public async Task Post_AcceptCsv_IsALineAFigureEachWithTheCaution()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        var answer = await herd.Send(HttpMethod.Post, "/what-if", WorkedExample, "application/json", "text/csv");
        Assert.Equal("text/csv", answer.MediaType);
        var lines = answer.Text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        Assert.Equal(1 + (2 * 13), lines.Length);
        Assert.All(lines.Skip(1), line => Assert.Contains("ends a pregnancy", line, StringComparison.Ordinal));
        var sheet = (await herd.Send(HttpMethod.Post, "/what-if", WorkedExample.Replace("\"A0\"", "\"=A0\"", StringComparison.Ordinal), "application/json", "text/csv")).Text;
        Assert.Contains("\n'=A0,days-open,days,115.916667,,,-13.553373,,,", sheet.ReplaceLineEndings("\n"), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotAcceptable, (await herd.Send(HttpMethod.Post, "/what-if", WorkedExample, "application/json", "image/png")).Status);
    }

    private static async Task<HerdClient> Demo(ApiHostFixture host)
    {
        await new DemoHerd(host.Store, NodaTime.Instant.FromUtc(2026, 10, 5, 12, 0)).Load();
        return new HerdClient(host.CreateClient(), $"/locations/{DemoHerd.Location.Scheme}/{DemoHerd.Location.Id}");
    }

    private static JsonNode Programme(Answer answer, int index) => answer["programmes"].AsArray()[index]!;

    private static JsonNode Figure(Answer answer, int index, string figure) =>
        Programme(answer, index)["figures"]!.AsArray().Single(f => (string?)f!["figure"] == figure)!;

    private static double Value(Answer answer, int index, string figure) => (double)Figure(answer, index, figure)["value"]!["value"]!;
}
