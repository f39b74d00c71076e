using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Exchange;

/// <summary>What comes by the exchange standard and what comes as plain facts are the same facts.</summary>
public sealed class BothDoorsTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private const string PlainService = """
        [{"sourceId":"s1","source":"org.example.herd","kind":"insemination","animal":"1042","date":"2026-08-20","time":"08:00","sire":"B77","technician":"Kim"}]
        """;

    private const string OwnService = """{"inseminationType":"Insemination","responsible":"Kim","straw":{"sireOfficialName":"B77"}}""";

    [Fact]
    public async Task SameServiceByBothDoors_IsADuplicate_WhicheverComesFirst()
    {
        var first = await AdeHerd.Create(host);
        await first.Post("inseminations", AdeHerd.Service("s1", "1042", own: OwnService));
        Assert.Equal("duplicate", (string?)(await first.Herd.Post("/facts", PlainService)).Results[0]!["status"]);

        var second = await AdeHerd.Create(host);
        await second.Herd.Accept(PlainService);
        await second.Post("inseminations", AdeHerd.Service("s1", "1042", own: OwnService));
        foreach (var herd in new[] { first, second })
        {
            Assert.Single((await herd.Herd.Get("/animals/1042/timeline"))["facts"].AsArray(), f => (string?)f!["kind"] == "insemination");
            Assert.Equal(("us.bovine", "1042"), Named(Assert.Single(await herd.All("inseminations"))));
        }
    }

    [Fact]
    public async Task OtherContentByTheOtherDoor_Replaces()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Herd.Accept(PlainService);
        await herd.Post("inseminations", AdeHerd.Service("s1", "1042", "2026-08-22T13:00:00Z"));
        Assert.Equal("2026-08-22T13:00:00Z", (string?)Assert.Single(await herd.All("inseminations"))["eventDateTime"]);
        Assert.Equal("2026-08-22", (string?)Assert.Single((await herd.Herd.Get("/facts"))["facts"].AsArray(), f => (string?)f!["kind"] == "insemination")!["date"]);
    }

    [Fact]
    public async Task SameResultByBothDoors_IsADuplicate()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Herd.Accept(PlainService);
        await herd.Post("pregnancy-checks", AdeHerd.Check("r1", "1042"));
        var again = await herd.Herd.Post("/test-results",
            """[{"source":"org.example.herd","sourceId":"r1","animal":"1042","sampled":"2026-10-01","time":"06:00","method":"blood","outcome":"pregnant"}]""");
        Assert.Equal(("duplicate", "pregnant"), ((string?)again.Results[0]!["status"], (string?)again.Results[0]!["decides"]));
    }

    [Fact]
    public async Task IdOfAnotherKind_IsRefused_AndNothingIsLost()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("heats", AdeHerd.Message("heats", "17", "1", "2026-09-01T00:00:00Z"));
        var refused = await herd.Post("parturitions", AdeHerd.Message("parturitions", "17", "1", "2026-06-01T00:00:00Z"), HttpStatusCode.BadRequest);
        Assert.Equal("/meta/sourceId", (string?)refused["errors"][0]!["instance"]);
        Assert.Single(await herd.All("heats"));
        Assert.Empty(await herd.All("parturitions"));
    }

    [Fact]
    public async Task ReplacedByAnotherKindAtTheOtherDoor_IsToldAsGone()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("heats", AdeHerd.Message("heats", "17", "1", "2026-09-01T00:00:00Z"));
        await herd.Herd.Post("/facts", """[{"source":"org.example.herd","sourceId":"17","kind":"calving","animal":"1","date":"2026-06-01"}]""");
        Assert.Empty(await herd.All("heats"));
        Assert.True((bool)Assert.Single(await herd.All("heats", "?meta-modified-from=2000-01-01T00:00:00Z"))["meta"]!["isDeleted"]!);
        Assert.Single(await herd.All("parturitions"));
    }

    [Fact]
    public async Task ResultThatTurnsOutSpoiled_IsToldAsGone()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Herd.Accept(PlainService);
        await herd.Post("pregnancy-checks", AdeHerd.Check("r1", "1042"));
        await herd.Herd.Post("/test-results", """[{"source":"org.example.herd","sourceId":"r1","animal":"1042","sampled":"2026-10-01","outcome":"invalid"}]""");
        await herd.Herd.Post("/test-results", """[{"source":"org.example.herd","sourceId":"r2","animal":"1042","sampled":"2026-10-02","outcome":"invalid"}]""");
        Assert.Empty(await herd.All("pregnancy-checks"));
        Assert.Equal("r1", (string?)Assert.Single(await herd.All("pregnancy-checks", "?meta-modified-from=2000-01-01T00:00:00Z"))["meta"]!["sourceId"]);
    }

    [Fact]
    public async Task CardFromTheFarm_SaysWhomAnIdentifierMeans()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Herd.Accept("""[{"sourceId":"a","kind":"animal","animal":"1042","parity":1,"pen":"4","identifiers":[{"scheme":"us.bovine","id":"840 003"}]}]""");
        var stored = await herd.Post("heats", AdeHerd.Message("heats", "h", "840003", "2026-09-01T00:00:00Z"));
        Assert.Equal(("us.bovine", "840 003"), Named(stored.Json!));
        Assert.Equal("1042", (string?)stored[AdeSchemas.Extension]["animal"]);
        Assert.Single(await herd.All("animals"));
        Assert.Equal(2, (await herd.Herd.Get("/facts"))["facts"].AsArray().Count);
    }

    [Fact]
    public async Task EventBeforeTheCard_DoesNotOutrankIt()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("heats", AdeHerd.Message("heats", "h", "1042", "2026-09-01T00:00:00Z"));
        await herd.Herd.Accept("""[{"sourceId":"a","kind":"animal","animal":"1042","breed":"Jersey","pen":"4"}]""");
        var animal = Assert.Single(await herd.All("animals"));
        Assert.Equal(("Jersey", "4"), ((string?)animal["primaryBreed"]!["id"], (string?)animal[AdeSchemas.Extension]!["pen"]));
        Assert.Equal(("us.bovine", "1042"), Named(animal));
    }

    [Fact]
    public async Task SameIdInTwoSchemes_IsTwoAnimals_AndAResultOfAThirdWaits()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("inseminations", AdeHerd.Service("s1", "12"));
        var other = AdeHerd.Service("s2", "12");
        other["animal"]!["scheme"] = "ca.bovine";
        await herd.Post("inseminations", other);
        Assert.Equal([("us.bovine", "12"), ("ca.bovine", "12")], (await herd.All("inseminations")).Select(Named));

        var check = AdeHerd.Check("c", "12");
        check["animal"]!["scheme"] = "eu.bovine";
        await herd.Post("pregnancy-checks", check, HttpStatusCode.Accepted);
        var held = Assert.Single((await herd.Herd.Get("/held-results"))["held"].AsArray())!;
        Assert.Equal("ambiguous-identifier", (string?)held["reason"]);
        foreach (var name in new[] { "12", "12%20(ca.bovine)" })
        {
            Assert.Equal("held-result", (string?)(await herd.Herd.Get($"/animals/{name}/test-window"))["gate"]["pgf"]!["clause"]);
        }

        // A person settles it as any other.
        var settled = await herd.Herd.Post($"/held-results/{held["heldId"]}/assign", """{"animal":"12"}""");
        Assert.True(settled.Status == HttpStatusCode.OK, settled.Text);
        Assert.Equal(("c", ("us.bovine", "12")), ((string?)Assert.Single(await herd.All("pregnancy-checks"))["meta"]!["sourceId"], Named((await herd.All("pregnancy-checks"))[0])));
    }

    [Fact]
    public async Task EveryCheck_IsKeptAsReceived()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("inseminations", AdeHerd.Service("s1", "1"));
        var bad = AdeHerd.Check("c2", "1", "Perhaps");
        await herd.Batch("pregnancy-checks", AdeHerd.Check("c1", "1"), bad, AdeHerd.Check("c3", "unknown"));
        var lines = (await herd.Herd.Get("/received"))["lines"].AsArray();
        Assert.Equal(["accepted", "rejected", "held"], lines.OrderBy(l => (string?)l!["sourceId"], StringComparer.Ordinal).Select(l => (string)l!["decision"]!));
    }

    [Fact]
    public async Task Arrival_TellsWhatHappenedBefore_AndTakesItBack()
    {
        var herd = await AdeHerd.Create(host);
        var arrival = AdeHerd.Message("arrivals", "a", "1", "2026-10-01T00:00:00Z",
            """{"animalState":{"currentLactationParity":2.0,"lastCalvingDate":"2026-05-02","lastInseminationDate":"2026-08-01"}}""");
        await herd.Post("arrivals", arrival);
        Assert.Equal("a#insemination", (string?)Assert.Single(await herd.All("inseminations"))["meta"]!["sourceId"]);
        Assert.Equal("a#calving", (string?)Assert.Single(await herd.All("parturitions"))["meta"]!["sourceId"]);
        Assert.Equal(2, (int?)Assert.Single(await herd.All("animals"))[AdeSchemas.Extension]!["parity"]);
        arrival["animalState"]!.AsObject().Remove("lastInseminationDate");
        await herd.Post("arrivals", arrival);
        Assert.Empty(await herd.All("inseminations"));
        arrival["meta"]!["isDeleted"] = true;
        await herd.Post("arrivals", arrival);
        Assert.Empty(await herd.All("parturitions"));
    }

    [Fact]
    public async Task DeathsAndDepartures_AreTwoThings()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("deaths", AdeHerd.Message("deaths", "d", "1", "2026-10-01T00:00:00Z", """{"deathReason":"Accident"}"""));
        await herd.Post("departures", AdeHerd.Message("departures", "e", "2", "2026-10-01T00:00:00Z", """{"departureKind":"Sale","departureReason":"Mastitis"}"""));
        Assert.Equal("Accident", (string?)Assert.Single(await herd.All("deaths"))["deathReason"]);
        var departure = Assert.Single(await herd.All("departures"));
        Assert.Equal(("Sale", "Mastitis"), ((string?)departure["departureKind"], (string?)departure["departureReason"]));
        Assert.Equal(["Dead", "OffFarm"], (await herd.All("animals")).Select(a => (string)a["status"]!));
    }

    [Theory]
    [InlineData("2026-08-20T00:00:00Z", "2026-08-20", null)]
    [InlineData("2026-08-20T02:00:00Z", "2026-08-19", "21:00")]
    [InlineData("2026-08-20T23:30:00+02:00", "2026-08-20", "16:30")]
    public async Task Instant_BecomesTheHerdsDay(string sent, string date, string? time)
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("inseminations", AdeHerd.Service("s", "1", sent));
        var fact = Assert.Single((await herd.Herd.Get("/facts"))["facts"].AsArray(), f => (string?)f!["kind"] == "insemination")!;
        Assert.Equal((date, time), ((string?)fact["date"], (string?)fact["time"]));
    }

    [Fact]
    public async Task SamplingRound_IsASetOfAnimals()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("inseminations", AdeHerd.Service("s1", "1"));
        await herd.Post("inseminations", AdeHerd.Service("s2", "2"));
        await herd.Herd.Post("/sampling-rounds", """{"date":"2026-10-05","animals":["2"]}""");
        await herd.Herd.Post("/sampling-rounds", """{"date":"2026-10-08","animals":["1","2"]}""");
        var sets = await herd.All("animal-sets", "?animal-scheme=us.bovine&animal-id=1");
        var set = Assert.Single(sets);
        Assert.Equal(("R2", "Session"), ((string?)set["id"], (string?)set["purpose"]));
        Assert.Equal(["1", "2"], set["member"]!.AsArray().Select(m => (string)m!["id"]!));
        var later = await herd.Tick();
        Assert.Equal(HttpStatusCode.OK, (await herd.Herd.Put("/sampling-rounds/R1/tubes/R1-001", """{"state":"not-drawn","reason":"not-found"}""")).Status);
        Assert.Equal(later, AdeHerd.Instants((await herd.All("animal-sets"))[^1]["meta"]!["modified"]));
    }

    [Fact]
    public async Task UnknownTreatment_IsRefused_NeverGuessed()
    {
        var herd = await AdeHerd.Create(host);
        var treatment = AdeHerd.Message("treatments", "t", "1", "2026-10-01T11:00:00Z", """{"medicine":{"name":"Something"},"procedure":"Injection"}""");
        var error = Assert.Single((await herd.Post("treatments", treatment, HttpStatusCode.BadRequest))["errors"].AsArray())!;
        Assert.Contains("gnrh, pgf", (string?)error["detail"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Undecided_IsNeverNotPregnant()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("inseminations", AdeHerd.Service("s1", "1"));
        await herd.Post("pregnancy-checks", AdeHerd.Check("c", "1", "Unknown"));
        Assert.Equal("Inseminated", (string?)Assert.Single(await herd.All("repro-status-observations"))["observedStatus"]);
        var check = Assert.Single(await herd.All("pregnancy-checks"));
        Assert.Equal(("Unknown", "recheck", "recheck"), ((string?)check["result"], (string?)check[AdeSchemas.Extension]!["outcome"], (string?)check[AdeSchemas.Extension]!["decides"]));
        Assert.Equal("recheck", (string?)(await herd.Herd.Get("/animals/1/test-window"))["gate"]["pgf"]!["clause"]);
    }

    private static (string?, string?) Named(JsonNode message) =>
        (message["animal"] ?? message["identifier"])! is var name ? ((string?)name["scheme"], (string?)name["id"]) : default;
}
