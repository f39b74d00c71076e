using System.Net;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.WhatIf;

public sealed class TestAccuracyTests
{
    [Fact]
    public async Task Get_AHerdWithoutTests_SaysThereIsNoValueAndListsTheStudies()
    {
        await using var host = new ApiHostFixture();
        var answer = await (await HerdClient.Create(host)).Get("/test-accuracy");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Null(answer.Json!["inHerd"]);
        Assert.Contains("no first test", (string?)answer["noValue"], StringComparison.Ordinal);
        Assert.Null(answer["firstTests"]["calledPregnant"]!["value"]);
        Assert.Equal(0, (int)answer["firstTests"]["calledPregnant"]!["denominator"]!);
        var study = answer["studies"].AsArray().Single(s => (string?)s!["id"] == "karen-2015-pag-elisa")!;
        Assert.Equal((37, 41), ((int)study["sensitivity"]!["numerator"]!, (int)study["sensitivity"]!["denominator"]!));
        Assert.Contains(answer["studies"].AsArray(), s => ((string?)s!["notUsable"])?.Contains("recalled", StringComparison.Ordinal) == true);
    }

    /// <summary>A herd of 90 % pregnant and a rapid test read by eye (Mayo et al. 2016, 156/24/3/137).</summary>
    [Fact]
    public async Task Get_AShareGiven_GivesPredictiveValuesAndFromWhenASecondSamplePays()
    {
        await using var host = new ApiHostFixture();
        var answer = await (await HerdClient.Create(host)).Get("/test-accuracy?study=mayo-2016-rapid-eye&sharePregnant=0.9&testPrice=4&dayOpenPrice=3&lostPregnancyPrice=500");
        var herd = answer["inHerd"];
        var (se, sp) = (156 / 159.0, 137 / 161.0);
        Assert.Equal(sp * 0.1 / ((sp * 0.1) + ((1 - se) * 0.9)), (double)herd["negativePredictive"]!["value"]!, 1e-12);
        Assert.Equal(1000 * (1 - se) * 0.9 * 500, (double)herd["costOf1000"]!["value"]!, 1e-6);
        var second = herd["secondSample"]!;
        Assert.Equal(1000 * 0.9 * (1 - se) * (1 - se), (double)second["wrongOpenIfIndependent"]!["value"]!, 1e-9);
        Assert.Equal((double)second["wrongOpenWithOne"]!["value"]!, (double)second["wrongOpenIfRepeated"]!["value"]!);
        Assert.Equal((double)second["paysFrom"]! < 500, (bool)second["pays"]!);
        Assert.Contains(answer["assumptions"].AsArray(), a => ((string)a!).Contains("independently", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Get_FirstTestsOfAHerd_AreCountedOnceAServiceAndConfirmationsAreNot()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        await herd.Accept("""
            [{"sourceId":"a","kind":"animal","animal":"1","parity":1},{"sourceId":"b","kind":"animal","animal":"2","parity":1},
             {"sourceId":"c","kind":"calving","animal":"1","date":"2026-01-01"},{"sourceId":"d","kind":"calving","animal":"2","date":"2026-01-01"},
             {"sourceId":"e","kind":"insemination","animal":"1","date":"2026-04-01"},{"sourceId":"f","kind":"insemination","animal":"2","date":"2026-04-01"},
             {"sourceId":"g","kind":"insemination","animal":"2","date":"2026-05-10"}]
            """);
        var results = await herd.Post("/test-results", """
            [{"sourceId":"1","animal":"1","sampled":"2026-05-01","method":"blood","outcome":"pregnant"},
             {"sourceId":"2","animal":"1","sampled":"2026-06-20","method":"blood","outcome":"pregnant"},
             {"sourceId":"3","animal":"2","sampled":"2026-05-01","method":"blood","outcome":"open"},
             {"sourceId":"4","animal":"2","sampled":"2026-06-10","method":"blood","outcome":"recheck"},
             {"sourceId":"5","animal":"2","sampled":"2026-06-20","method":"blood","outcome":"pregnant"}]
            """);
        Assert.All(results.Results, r => Assert.Equal("accepted", (string?)r!["status"]));
        var tests = (await herd.Get("/test-accuracy"))["firstTests"];
        Assert.Equal((1, 1, 1), ((int)tests["pregnant"]!, (int)tests["open"]!, (int)tests["recheck"]!));
        Assert.Equal(0.5, (double)tests["calledPregnant"]!["value"]!);
    }

    [Fact]
    public async Task Get_WrongParameters_AreNamedTogether()
    {
        await using var host = new ApiHostFixture();
        var refused = await (await HerdClient.Create(host)).Get("/test-accuracy?study=nobody&sharePregnant=40&to=2026-10-01&testPrice=-1&brand=x");
        Assert.Equal(HttpStatusCode.BadRequest, refused.Status);
        Assert.Equal(["brand", "sharePregnant", "study", "testPrice", "to"], refused["errors"].AsArray().Select(e => (string)e!["field"]!).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Get_AcceptCsv_IsALineAStudy()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        var answer = await herd.Get("/test-accuracy?sharePregnant=0.4", "text/csv");
        Assert.Equal("text/csv", answer.MediaType);
        var studies = (await herd.Get("/test-accuracy"))["studies"].AsArray().Count;
        Assert.Equal(1 + studies, answer.Text.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
    }
}
