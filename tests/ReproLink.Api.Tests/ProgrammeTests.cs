using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Programmes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

public sealed class ProgrammeTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    [Fact]
    public async Task Get_NoneSaved_AnswersTheDefaultsAndSaysSo()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Get("/programme");
        Assert.Equal("""{"version":0,"defaults":true}""", answer["programme"].ToJsonString());
        Assert.Equal("defaults", (string?)answer["state"]);
        AssertDefaults(answer.Json!);
        Assert.Empty((await herd.Get("/programme/versions"))["versions"].AsArray());
    }

    [Fact]
    public async Task Put_Empty_SavesTheDefaults()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Put("/programme", "{}");
        Assert.Equal("""{"version":1,"state":"saved","findings":[]}""", answer.Json!.ToJsonString());
        var saved = await herd.Get("/programme");
        AssertDefaults(saved.Json!);
        Assert.Equal("2026-10-05", (string?)saved["inForceFrom"]);
        Assert.Null(saved.Json!["programme"]);
    }

    [Fact]
    public async Task Put_TheDocumentsExample_ComesBackAsSent()
    {
        var herd = await HerdClient.Create(host);
        Assert.Equal(HttpStatusCode.OK, (await herd.Put("/programme", ProgrammeExamples.Programme)).Status);
        var saved = await herd.Get("/programme");
        foreach (var (name, value) in JsonNode.Parse(ProgrammeExamples.Programme)!.AsObject())
        {
            Assert.True(JsonNode.DeepEquals(value, saved[name]), $"{name} came back as {saved[name].ToJsonString()}");
        }
    }

    [Fact]
    public async Task Get_On_AnswersTheVersionInForceThen()
    {
        var herd = await HerdClient.Create(host);
        await herd.Put("/programme", """{"inForceFrom":"2026-03-01"}""");
        await herd.Put("/programme", """{"inForceFrom":"2026-06-01"}""");
        await herd.Put("/programme", """{"inForceFrom":"2027-01-01"}""");
        Assert.Equal(2, (int)(await herd.Get("/programme"))["version"]);
        Assert.Equal(1, (int)(await herd.Get("/programme?on=2026-05-31"))["version"]);
        Assert.Equal(2, (int)(await herd.Get("/programme?on=2026-06-01"))["version"]);
        Assert.Equal(3, (int)(await herd.Get("/programme?on=2027-01-01"))["version"]);
        // Before the first version, the first governs.
        Assert.Equal(1, (int)(await herd.Get("/programme?on=2020-01-01"))["version"]);
        Assert.Equal(3, (await herd.Get("/programme/versions"))["versions"].AsArray().Count);
    }

    [Theory]
    [InlineData("minDaysPostService", 27, "T1")]
    [InlineData("minDaysInMilk", 59, "T2")]
    [InlineData("cautionDaysInMilk", 89, "T2")]
    [InlineData("clearanceEarlyLoss", 13, "T3")]
    [InlineData("clearanceLateLoss", 59, "T3")]
    [InlineData("lateLossFromDay", 61, "T3")]
    [InlineData("resampleAfterDays", 6, "T5")]
    public async Task Put_BeyondAFloor_NamesTheRule(string setting, int value, string rule)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Put("/programme", $$$"""{"test":{"{{{setting}}}":{{{value}}} } }""");
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        var error = Assert.Single(answer["errors"].AsArray())!;
        Assert.Equal("/problems/below-floor", (string?)error["type"]);
        Assert.Equal($"/test/{setting}", (string?)error["field"]);
        Assert.Contains($"rule {rule} ", (string?)error["allowed"], StringComparison.Ordinal);
        // On the floor itself it is let in.
        var onFloor = setting == "lateLossFromDay" ? value - 1 : value + 1;
        Assert.Equal(HttpStatusCode.OK, (await herd.Put("/programme", $$$"""{"test":{"{{{setting}}}":{{{onFloor}}} } }""")).Status);
    }

    [Theory]
    [InlineData("""{"tests":{}}""", "/tests")]
    [InlineData("""{"test":{"minDays":30}}""", "/test/minDays")]
    [InlineData("""{"test":null}""", "/test")]
    [InlineData("""{"test":{"minDaysPostService":28.5}}""", "/test/minDaysPostService")]
    [InlineData("""{"test":{"targetDaysPostService":50}}""", "/test/overdueDaysPostService")]
    [InlineData("""{"test":{"resampleAfterDays":15}}""", "/test/resampleWithinDays")]
    [InlineData("""{"test":{"method":"ultrasound"}}""", "/test/method")]
    [InlineData("""{"test":{"openAfterPregnant":"ignore"}}""", "/test/openAfterPregnant")]
    [InlineData("""{"test":{"cutOffs":{"openBelow":0.4,"pregnantAbove":0.3,"unit":"S-N"}}}""", "/test/cutOffs/openBelow")]
    [InlineData("""{"test":{"cutOffs":{"openBelow":0.2,"pregnantAbove":0.3}}}""", "/test/cutOffs/unit")]
    [InlineData("""{"confirmations":[{"from":74,"to":73,"method":"blood"}]}""", "/confirmations/0/to")]
    [InlineData("""{"confirmations":[{"from":74,"to":90,"method":"blood"},{"from":90,"to":99,"method":"blood"}]}""", "/confirmations/1/from")]
    [InlineData("""{"confirmations":[{"from":27,"to":90,"method":"blood"}]}""", "/confirmations/0/from")]
    [InlineData("""{"confirmations":[{"from":34,"to":90,"method":"palpation"}]}""", "/confirmations/0/from")]
    [InlineData("""{"week":{"samplingDays":["moonday"]}}""", "/week/samplingDays")]
    [InlineData("""{"week":{"samplingDays":[]}}""", "/week/samplingDays")]
    [InlineData("""{"week":{"samplingDays":["monday","monday"]}}""", "/week/samplingDays")]
    [InlineData("""{"week":{"morning":"25:00"}}""", "/week/morning")]
    [InlineData("""{"week":{"morning":"07:00:00"}}""", "/week/morning")]
    [InlineData("""{"week":{"morning":"16:00"}}""", "/week/afternoon")]
    [InlineData("""{"week":{"workingHours":{"from":"20:00"}}}""", "/week/workingHours/to")]
    [InlineData("""{"week":{"closedDates":["2026-02-29"]}}""", "/week/closedDates")]
    [InlineData("""{"week":{"maxTubesPerDay":0}}""", "/week/maxTubesPerDay")]
    [InlineData("""{"laboratory":{"minutes":20}}""", "/laboratory/minutes")]
    [InlineData("""{"laboratory":{"kind":"home"}}""", "/laboratory/kind")]
    [InlineData("""{"resynchronisation":{"protocol":"no-such"}}""", "/resynchronisation/protocol")]
    [InlineData("""{"resynchronisation":{"protocol":"cosynch-5d-insert-dairy-heifer","start":"at-result"}}""", "/resynchronisation/protocol")]
    [InlineData("""{"resynchronisation":{"protocolHeifer":"ovsynch-56"}}""", "/resynchronisation/protocolHeifer")]
    [InlineData("""{"firstService":{"protocol":"cosynch-5d-insert-dairy-heifer"}}""", "/firstService/protocol")]
    [InlineData("""{"firstService":{"startDays":["noday"]}}""", "/firstService/startDays")]
    [InlineData("""{"pregnancy":{"dryOffDaysBeforeDue":-1}}""", "/pregnancy/dryOffDaysBeforeDue")]
    [InlineData("""{"recording":"always"}""", "/recording")]
    [InlineData("""{"requireRounds":"yes"}""", "/requireRounds")]
    [InlineData("""{"inForceFrom":"2026-02-30"}""", "/inForceFrom")]
    public async Task Put_BadSetting_IsRefusedByName_AndNothingIsSaved(string programme, string field)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Put("/programme", programme);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(field, (string?)Assert.Single(answer["errors"].AsArray())!["field"]);
        Assert.Empty((await herd.Get("/programme/versions"))["versions"].AsArray());
    }

    [Fact]
    public async Task Put_ProtocolWithAGatedFirstStep_OnlyAtResult()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Put("/programme", """{"resynchronisation":{"protocol":"presynch-10-ovsynch-56","start":"before-result"}}""");
        Assert.Equal("/resynchronisation/protocol", (string?)Assert.Single(answer["errors"].AsArray())!["field"]);
        Assert.Equal(HttpStatusCode.OK, (await herd.Put("/programme", """{"resynchronisation":{"protocol":"presynch-10-ovsynch-56","start":"at-result"}}""")).Status);
    }

    [Fact]
    public async Task Put_NoProtocolAndOnFarm_AreKept()
    {
        var herd = await HerdClient.Create(host);
        await herd.Put("/programme", """{"resynchronisation":{"protocol":"none"},"laboratory":{"kind":"on-farm","minutes":20}}""");
        var saved = await herd.Get("/programme");
        Assert.Equal("none", (string?)saved["resynchronisation"]["protocol"]);
        Assert.Equal(20, (int)saved["laboratory"]["minutes"]!);
    }

    [Fact]
    public async Task Approve_SavedVersion_IsOnRecordUntilItsLastDay()
    {
        var herd = await HerdClient.Create(host);
        await herd.Put("/programme", "{}");
        var answer = await herd.Post("/programme/approvals", """{"version":1,"expires":"2026-12-31"}""");
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        Assert.Equal("local", (string?)answer["approvedBy"]);
        Assert.True((bool)(await herd.Get("/programme"))["approved"]);
        Assert.True((bool)(await herd.Get("/programme?on=2026-12-31"))["approved"]);
        Assert.False((bool)(await herd.Get("/programme?on=2027-01-01"))["approved"]);
    }

    [Theory]
    [InlineData("""{"version":2}""", "/version")]
    [InlineData("""{"version":0}""", "/version")]
    [InlineData("""{}""", "/version")]
    [InlineData("""{"version":1,"expires":"2026-10-04"}""", "/expires")]
    [InlineData("""{"version":1,"until":"2027-10-04"}""", "/until")]
    public async Task Approve_Bad_IsRefusedByName(string approval, string field)
    {
        var herd = await HerdClient.Create(host);
        await herd.Put("/programme", "{}");
        var answer = await herd.Post("/programme/approvals", approval);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(field, (string?)Assert.Single(answer["errors"].AsArray())!["field"]);
    }

    // The defaults of the contract, less what is off unless present.
    private static void AssertDefaults(JsonNode answer)
    {
        var expected = JsonNode.Parse(ProgrammeExamples.Programme)!.AsObject();
        expected.Remove("inForceFrom");
        expected.Remove("firstService");
        expected["resynchronisation"]!.AsObject().Remove("protocolHeifer");
        expected["test"]!.AsObject().Remove("cutOffs");
        expected["week"]!["closedDates"] = new JsonArray();
        foreach (var (name, value) in expected)
        {
            Assert.True(JsonNode.DeepEquals(value, answer[name]), $"{name} is {answer[name]?.ToJsonString()}");
        }

        Assert.Null(answer["firstService"]);
    }
}
