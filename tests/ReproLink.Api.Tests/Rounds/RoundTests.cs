using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Rounds;

public sealed class RoundTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private static string[] Tubes(JsonNode round) => [.. round["tubes"]!.AsArray().Select(t => $"{t!["tube"]} {t["animal"]} {t["state"]}")];

    [Fact]
    public async Task Post_OfADay_FreezesItsListInTheOrderOfPensAndAnimals()
    {
        var herd = await RoundHerd.Create(host, 12);
        var answer = await herd.Post("/sampling-rounds", """{"date":"2026-10-08","name":"Thursday"}""");
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        Assert.Equal([.. Enumerable.Range(1, 12).Select(i => $"R1-{i:000} {i} planned")], Tubes(answer.Json!));
        Assert.Equal("planned", (string?)answer["state"]);
        Assert.Equal(28, (int)answer["tubes"][0]!["daysPostService"]!);
        Assert.Equal("first-test", (string?)answer["tubes"][0]!["need"]);
        Assert.Equal("""{"needles":14,"tubes":14,"labels":12,"sharpsContainers":1}""", answer["supplies"].ToJsonString());
        Assert.Contains(answer["checklist"].AsArray(), l => ((string)l!["text"]!).Contains("new needle for every animal", StringComparison.Ordinal));

        // The calendar changes its mind; the list in the technician's hand does not.
        await herd.Accept("""[{"sourceId":"x","kind":"departure","animal":"5","date":"2026-10-05"}]""");
        Assert.Equal(Tubes(answer.Json!), Tubes((await herd.Get("/sampling-rounds/R1")).Json!));
    }

    [Fact]
    public async Task Post_TwiceForOneDay_HasNothingLeftToFreeze()
    {
        var herd = await RoundHerd.Create(host, 2);
        await herd.Freeze();
        var again = await herd.Post("/sampling-rounds", """{"date":"2026-10-08"}""");
        Assert.Equal(HttpStatusCode.Conflict, again.Status);
        Assert.Equal("/problems/nothing-to-freeze", (string?)again["type"]);
        Assert.Equal("R2", await herd.Freeze("""{"date":"2026-10-08","animals":["2"]}"""));
    }

    [Fact]
    public async Task Post_WithAnIdempotencyKey_FreezesOnce()
    {
        var herd = await RoundHerd.Create(host, 2);
        const string Body = """{"date":"2026-10-08"}""";
        var first = await herd.Post("/sampling-rounds", Body, idempotencyKey: "k");
        var second = await herd.Post("/sampling-rounds", Body, idempotencyKey: "k");
        Assert.Equal((first.Status, first.Text), (second.Status, second.Text));
        Assert.Single((await herd.Get("/sampling-rounds"))["rounds"].AsArray());
    }

    [Theory]
    [InlineData("""{}""", "/date")]
    [InlineData("""{"date":"2026-10-08","animals":["1","99"]}""", "/animals/1")]
    [InlineData("""{"date":"2026-10-08","animals":["1","1"]}""", "/animals/1")]
    [InlineData("""{"date":"2026-10-08","animals":[]}""", "/animals")]
    [InlineData("""{"date":"2026-10-08","specimen":"ink"}""", "/specimen")]
    [InlineData("""{"date":"2026-10-08","tubes":3}""", "/tubes")]
    public async Task Post_WhatIsWrong_IsNamed(string body, string field)
    {
        var herd = await RoundHerd.Create(host, 2);
        var answer = await herd.Post("/sampling-rounds", body);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(field, (string?)answer["errors"][0]!["field"]);
        Assert.Empty((await herd.Get("/sampling-rounds"))["rounds"].AsArray());
    }

    [Fact]
    public async Task Put_DrawnTube_IsASampleOfTheAnimalOnItsLabelAndOnlyWhileItHoldsBlood()
    {
        var herd = await RoundHerd.Create(host, 3);
        await herd.Freeze();
        await herd.Draw("R1-002");
        Assert.Equal(["2 R1-002"], await herd.Samples());
        await herd.Mark("R1-002", """{"state":"short","date":"2026-10-05"}""");
        Assert.Equal(["2 R1-002"], await herd.Samples());
        await herd.Mark("R1-002", """{"state":"broken","date":"2026-10-05"}""");
        Assert.Empty(await herd.Samples());
        await herd.Draw("R1-002");
        Assert.Equal(["2 R1-002"], await herd.Samples());
        await herd.Mark("R1-002", """{"state":"planned"}""");
        Assert.Empty(await herd.Samples());
        Assert.Equal("planned", (string?)(await herd.Get("/sampling-rounds/1"))["state"]);
    }

    [Fact]
    public async Task Put_OutOfOrder_IsRecordedWithAWarning()
    {
        var herd = await RoundHerd.Create(host, 3);
        await herd.Freeze();
        var answer = await herd.Mark("R1-003", """{"state":"drawn","date":"2026-10-05"}""");
        Assert.Contains("R1-001 and 1 more", (string)answer["warnings"][0]!, StringComparison.Ordinal);
        Assert.Equal("R1-001", (string?)answer["next"]);
        var again = await herd.Mark("R1-003", """{"state":"drawn","date":"2026-10-05"}""");
        Assert.Equal(HttpStatusCode.OK, again.Status);
        Assert.Single(await herd.Samples());
    }

    [Fact]
    public async Task Put_WithTheStateLastSeen_RecordsNothingWhereAnotherIsOnRecordByNow()
    {
        var herd = await RoundHerd.Create(host, 2);
        await herd.Freeze();
        await herd.Mark("R1-001", """{"state":"not-drawn","reason":"no-flow","date":"2026-10-05","time":"06:45","by":"Ben"}""");
        const string Drawn = """{"state":"drawn","date":"2026-10-05","time":"06:41","by":"Ana","was":"planned"}""";
        var answer = await herd.Mark("R1-001", Drawn);
        Assert.Equal(HttpStatusCode.Conflict, answer.Status);
        Assert.Equal("/problems/tube-changed", (string?)answer["type"]);
        Assert.Contains("not drawn by Ben, 2026-10-05 06:45", (string)answer["detail"]!, StringComparison.Ordinal);
        Assert.Empty(await herd.Samples());

        var knowing = Drawn.Replace("planned", "not-drawn", StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await herd.Mark("R1-001", knowing)).Status);
        // What is on record already is no contradiction, whatever was last seen.
        Assert.Equal(HttpStatusCode.OK, (await herd.Mark("R1-001", Drawn)).Status);
        Assert.Equal(["1 R1-001"], await herd.Samples());
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Mark("R1-001", """{"state":"broken","was":"full"}""")).Status);
    }

    [Theory]
    [InlineData("R1-001", """{"state":"not-drawn"}""", 400, "/reason")]
    [InlineData("R1-001", """{"state":"drawn","reason":"refused","date":"2026-10-05"}""", 400, "/reason")]
    [InlineData("R1-001", """{"state":"drawn"}""", 400, "/date")]
    [InlineData("R1-001", """{"state":"lost"}""", 400, "/state")]
    [InlineData("R1-009", """{"state":"broken"}""", 404, null)]
    [InlineData("R7-001", """{"state":"broken"}""", 404, null)]
    [InlineData("R1-x", """{"state":"broken"}""", 404, null)]
    public async Task Put_WhatIsWrong_IsNamedAndNothingIsRecorded(string tube, string body, int status, string? field)
    {
        var herd = await RoundHerd.Create(host, 2);
        await herd.Freeze();
        var answer = await herd.Mark(tube, body);
        Assert.Equal(status, (int)answer.Status);
        Assert.Equal(field, (string?)answer.Json!["errors"]?[0]!["field"]);
        Assert.Equal("planned", (string?)(await herd.Get("/sampling-rounds/R1"))["state"]);
    }

    [Fact]
    public async Task Redraw_GoesIntoANewTubeAndTheOldOneNoLongerCounts()
    {
        var herd = await RoundHerd.Create(host, 2);
        await herd.Freeze();
        await herd.Draw("R1-001");
        var answer = await herd.Post("/sampling-rounds/R1/tubes", """{"redraws":"R1-001"}""");
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        Assert.Equal("R1-003", (string?)answer["tube"]["tube"]);
        Assert.Empty(await herd.Samples());
        await herd.Draw("R1-003");
        Assert.Equal(["1 R1-003"], await herd.Samples());
        Assert.Equal(["R1-001 1 broken", "R1-002 2 planned", "R1-003 1 drawn"], Tubes((await herd.Get("/sampling-rounds/R1")).Json!));
        Assert.Equal(HttpStatusCode.Conflict, (await herd.Post("/sampling-rounds/R1/tubes", """{"redraws":"R1-001"}""")).Status);
    }

    [Fact]
    public async Task LateAddition_GetsTheNextNumberUnlessSheHasATube()
    {
        var herd = await RoundHerd.Create(host, 3);
        await herd.Freeze("""{"date":"2026-10-08","animals":["3","1"]}""");
        var late = await herd.Post("/sampling-rounds/R1/tubes", """{"animal":"2"}""");
        Assert.Equal("R1-003 2", $"{late["tube"]["tube"]} {late["tube"]["animal"]}");
        Assert.Equal("/problems/tube-open", (string?)(await herd.Post("/sampling-rounds/R1/tubes", """{"animal":"2"}"""))["type"]);
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Post("/sampling-rounds/R1/tubes", """{"animal":"99"}""")).Status);
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Post("/sampling-rounds/R1/tubes", """{"animal":"2","redraws":"R1-001"}""")).Status);
    }

    [Fact]
    public async Task Dispatch_SendsWhatHoldsBloodAndSaysWhenTheReportIsExpected()
    {
        var herd = await RoundHerd.Create(host, 3);
        await herd.Freeze();
        await herd.Draw("R1-001");
        await herd.Mark("R1-002", """{"state":"not-drawn","reason":"not-found"}""");
        var answer = await herd.Post("/sampling-rounds/R1/dispatch", """{"by":"Ana"}""");
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        Assert.Equal(["R1-001"], answer["tubes"].AsArray().Select(t => (string?)t!["tube"]));
        Assert.Equal("""{"date":"2026-10-06","time":"17:00"}""", answer["expectedReport"].ToJsonString());
        Assert.Equal("/problems/nothing-to-dispatch", (string?)(await herd.Post("/sampling-rounds/R1/dispatch", "{}"))["type"]);
        Assert.Equal("/problems/tube-dispatched", (string?)(await herd.Post("/sampling-rounds/R1/dispatch", """{"tubes":["R1-001"]}"""))["type"]);
        Assert.Equal("/problems/tube-without-blood", (string?)(await herd.Post("/sampling-rounds/R1/dispatch", """{"tubes":["R1-002"]}"""))["type"]);
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Post("/sampling-rounds/R1/dispatch", """{"tubes":["R1-009"]}""")).Status);
        Assert.Equal("/problems/tube-dispatched", (string?)(await herd.Mark("R1-001", """{"state":"not-drawn","reason":"other"}"""))["type"]);
        Assert.Equal(HttpStatusCode.OK, (await herd.Mark("R1-001", """{"state":"broken"}""")).Status);
        Assert.Empty(await herd.Samples());
    }

    [Fact]
    public async Task Get_RoundOfAnotherHerd_IsNotFound()
    {
        var herd = await RoundHerd.Create(host, 2);
        await herd.Freeze();
        var other = await RoundHerd.Create(host, 1);
        Assert.Equal("/problems/round-not-found", (string?)(await other.Get("/sampling-rounds/R1"))["type"]);
    }
}
