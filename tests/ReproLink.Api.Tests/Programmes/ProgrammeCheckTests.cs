using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Programmes;

public sealed class ProgrammeCheckTests
{
    [Fact]
    public async Task Check_TheDefaults_AreFeasibleAndThursdayNeedsNoSlip()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/programme/check", "{}");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.True((bool)answer["feasible"]);
        Assert.Equal(7, answer["chains"].AsArray().Count);
        var thursday = answer["chains"].AsArray().Single(c => (string?)c!["weekday"] == "thursday")!;
        Assert.Equal((35, 0), ((int)thursday["intervalDays"]!, (int)thursday["slips"]!));
    }

    [Fact]
    public async Task Check_ASuggestion_MendsWhatItWasMadeFor()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        // Blood drawn on Fridays leaves on Monday: too late for the Monday on which a Thursday service wants its answer.
        var found = (await herd.Post("/programme/check", """{"week":{"samplingDays":["friday"]}}"""))["findings"].AsArray()
            .First(f => (string?)f!["problem"] == "slip" && (string?)f["suggestion"]?["property"] == "week.samplingDays")!;
        var days = new JsonArray([.. ((string)found["suggestion"]!["value"]!).Split(", ").Select(d => JsonValue.Create(d))]);
        var mended = await herd.Post("/programme/check", new JsonObject { ["week"] = new JsonObject { ["samplingDays"] = days } }.ToJsonString());
        Assert.DoesNotContain(mended["findings"].AsArray(), f =>
            (string?)f!["problem"] == "slip" && (string?)f["weekday"] == (string?)found["weekday"]);
    }

    [Fact]
    public async Task Put_AnInfeasibleProgramme_IsADraftThatGovernsNothing()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        // An answer that takes 30 working days is never back a week after any of the four starts tried.
        var saved = await herd.Put("/programme", """{"inForceFrom":"2026-09-01","laboratory":{"turnaroundWorkingDays":30}}""");
        Assert.Equal("draft", (string?)saved["state"]);
        Assert.Contains(saved["findings"].AsArray(), f => (string?)f!["problem"] == "infeasible");
        Assert.Equal(0, (int)(await herd.Get("/programme"))["version"]);
        Assert.Equal(HttpStatusCode.Conflict, (await herd.Post("/programme/approvals", """{"version":1}""")).Status);
    }

    [Fact]
    public async Task Put_ARecalledProtocol_WaitsForTheVeterinarian()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        const string programme = """{"inForceFrom":"2026-09-01","resynchronisation":{"protocol":"cosynch-5d-dairy-cow"}}""";
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Put("/programme", programme)).Status);
        Assert.True((bool)(await herd.Post("/protocols/cosynch-5d-dairy-cow/confirm", "{}"))["selectable"]);
        Assert.Equal("saved", (string?)(await herd.Put("/programme", programme))["state"]);
    }

    [Fact]
    public async Task Post_AHerdsOwnProtocol_IsCheckedAndMayBeChosen()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        const string sound = """
            {"schema":1,"id":"north-ridge-56","name":"North Ridge 56","animalClass":"dairy-cow","use":"either","evidence":"common-practice","source":"order of the veterinarian",
             "steps":[{"id":"gnrh-1","kind":"gnrh","days":0,"earlyHours":72,"lateHours":72},
               {"id":"pgf-1","kind":"pgf","anchor":"gnrh-1","days":7,"gated":true,"earlyHours":24,"lateHours":24},
               {"id":"inseminate","kind":"inseminate","anchor":"pgf-1","hours":72,"gated":true,"earlyHours":8,"lateHours":8}]}
            """;
        var ungated = await herd.Post("/protocols", sound.Replace("\"gated\":true,\"earlyHours\":24", "\"gated\":false,\"earlyHours\":24", StringComparison.Ordinal));
        Assert.Equal((HttpStatusCode.BadRequest, "/problems/bad-protocol"), (ungated.Status, (string?)ungated["type"]));
        Assert.Equal(HttpStatusCode.Created, (await herd.Post("/protocols", sound)).Status);
        Assert.Equal(59, (await herd.Get("/protocols"))["protocols"].AsArray().Count);
        Assert.Equal("saved", (string?)(await herd.Put("/programme", """{"inForceFrom":"2026-09-01","resynchronisation":{"protocol":"north-ridge-56"}}"""))["state"]);
    }

    [Fact]
    public async Task Put_TheContractsOwnExample_IsSaved()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        var saved = await herd.Put("/programme", """
            {"inForceFrom":"2026-09-01","resynchronisation":{"protocol":"ovsynch-56","protocolHeifer":"cosynch-5d-insert-dairy-heifer","start":"before-result","startDay":25},
             "firstService":{"voluntaryWaitingPeriodDays":60,"protocol":"double-ovsynch-56","startDays":["friday"]}}
            """);
        Assert.Equal("saved", (string?)saved["state"]);
        var chains = (await herd.Post("/programme/check", """{"firstService":{}}"""))["chains"].AsArray();
        Assert.Equal(7, chains.Count(c => (string?)c!["from"] == "calving"));
    }
}
