using System.Net;
using NodaTime;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Exchange.Conformance;

/// <summary>
/// The checks a server must pass that claims the reproduction part of the standard, by number: what a reader may count on
/// (1-20), what a sender may (21-42), and what holds for both (43-54).
/// </summary>
public sealed partial class ConformanceTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private static int _keys;

    [Fact]
    public async Task Check01_Locations_AreThoseTheKeyMayUse()
    {
        var herd = await AdeHerd.Create(host);
        var id = herd.Herd.Address.Split('/')[^1];
        var (secret, _) = await host.Store.Keys.Create($"ade-{Interlocked.Increment(ref _keys)}", KeyRole.Reader, [new LocationKey("farm", id)], Instant.FromUtc(2026, 10, 1, 0, 0));
        var answer = await herd.Herd.With(host, secret).Get("//locations");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal("application/json", answer.MediaType);
        AdeSchemas.Page(answer.Json!, "icarLocationCollection", "icarLocationResource");
        var only = Assert.Single(answer["member"].AsArray())!;
        Assert.Equal((id, "America/Chicago"), ((string?)only["identifier"]!["id"], (string?)only["timeZoneId"]));
    }

    [Fact]
    public async Task Check02_PregnancyChecks_NoneYet_AreAnEmptyArray() =>
        Assert.Empty((await (await AdeHerd.Create(host)).Page("pregnancy-checks"))["member"]!.AsArray());

    [Fact]
    public async Task Check03_EveryNoun_IsAPageOfItsOwnMessages()
    {
        var herd = await Story();
        foreach (var noun in AdeHerd.Nouns.Keys)
        {
            var members = (await herd.Page(noun))["member"]!.AsArray();
            Assert.True(members.Count > 0 || noun == "mating-recommendations", noun);
        }
    }

    [Fact]
    public async Task Check04_ResourceType_IsTheSchemasName()
    {
        var herd = await Story();
        foreach (var (noun, (_, message)) in AdeHerd.Nouns)
        {
            Assert.All(await herd.All(noun), m => Assert.Equal(message, (string?)m["resourceType"]));
        }
    }

    [Fact]
    public async Task Check05_NoNulls_AndEveryInstantIsUtc()
    {
        var herd = await Story();
        foreach (var noun in AdeHerd.Nouns.Keys)
        {
            var text = (await herd.Herd.Get($"/{noun}?meta-modified-from=2000-01-01T00:00:00Z")).Text;
            Assert.DoesNotContain("null", text, StringComparison.Ordinal);
            Assert.DoesNotMatch(@"T\d\d:\d\d(:\d\d)?(\.\d+)?[+-]\d\d", text);
        }
    }

    [Fact]
    public async Task Check06_Meta_IsComplete()
    {
        var herd = await Story();
        foreach (var noun in AdeHerd.Nouns.Keys)
        {
            Assert.All(await herd.All(noun), m => Assert.All(["source", "sourceId", "modified"], name => Assert.False(string.IsNullOrEmpty((string?)m["meta"]![name]))));
        }
    }

    [Fact]
    public async Task Check07_Animal_HasSchemeAndId()
    {
        var herd = await Story();
        foreach (var noun in AdeHerd.Nouns.Keys)
        {
            var animals = (await herd.All(noun)).SelectMany(m => noun == "animal-sets" ? m["member"]!.AsArray().AsEnumerable() : Enumerable.Repeat(m["animal"] ?? m["identifier"], 1));
            Assert.All(animals, animal => Assert.All(["scheme", "id"], name => Assert.False(string.IsNullOrEmpty((string?)animal![name]))));
        }
    }

    [Theory]
    [InlineData("34%2F123%2F1234", "34/123/1234")]
    [InlineData("NL%206802%205082", "NL 6802 5082")]
    public async Task Check08_LocationId_WithSlashOrBlank_IsFound(string encoded, string id)
    {
        var herd = new HerdClient(host.CreateClient(), $"/locations/uk.cph/{encoded}");
        Assert.Equal(HttpStatusCode.Created, (await herd.Put("", """{"name":"Slash","timeZone":"Europe/London"}""")).Status);
        var ade = new AdeHerd(host, herd);
        await ade.Post("heats", AdeHerd.Message("heats", "h", "1", "2026-10-01T00:00:00Z"));
        var heat = Assert.Single(await ade.All("heats"));
        Assert.Equal(id, (string?)heat["location"]!["id"]);
        Assert.Contains((await herd.Get("//locations"))["member"].AsArray(), l => (string?)l!["identifier"]!["id"] == id);
        Assert.Equal(HttpStatusCode.OK, (await herd.Get("/" + new Uri((string)heat["@self"]!).PathAndQuery)).Status);
    }

    [Fact]
    public async Task Check09_Paging_GivesEveryItemOnceAndEnds()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Batch("heats", [.. Enumerable.Range(0, 25).Select(i => AdeHerd.Message("heats", $"{i}", $"{i}", "2026-10-01T00:00:00Z"))]);
        var first = await herd.Page("heats", "?page-size=10");
        Assert.StartsWith("http://localhost/locations/farm/", (string?)first["view"]!["next"], StringComparison.Ordinal);
        var all = await herd.All("heats", "?page-size=10");
        Assert.Equal(Enumerable.Range(0, 25).Select(i => $"{i}"), all.Select(m => (string)m["meta"]!["sourceId"]!));
        foreach (var noun in new[] { "animals", "repro-status-observations", "gestations" })
        {
            Assert.Equal((await herd.All(noun)).Select(m => m.ToJsonString()), (await herd.All(noun, "?page-size=7")).Select(m => m.ToJsonString()));
        }

        Assert.Equal(25, (await herd.All("animals", "?page-size=7")).Count);
    }

    [Theory]
    [InlineData("heats")]
    [InlineData("animals")]
    public async Task Check10_InsertWhilePaging_LosesAndDoublesNothing(string noun)
    {
        var herd = await AdeHerd.Create(host);
        await herd.Batch("heats", [.. Enumerable.Range(0, 9).Select(i => AdeHerd.Message("heats", $"{i}", $"b{i}", "2026-10-01T00:00:00Z"))]);
        await herd.Tick();
        var seen = new List<string>();
        for (var next = "?page-size=3"; next is not null;)
        {
            var page = await herd.Page(noun, next);
            seen.AddRange(page["member"]!.AsArray().Select(m => (string)(m!["animal"] ?? m["identifier"])!["id"]!));
            if (seen.Count == 3)
            {
                await herd.Post("heats", AdeHerd.Message("heats", "late", "a-late", "2026-09-01T00:00:00Z"));
            }

            next = (string?)page["view"]!["next"];
        }

        Assert.Equal(seen.Distinct(), seen);
        Assert.Equal([], Enumerable.Range(0, 9).Select(i => $"b{i}").Except(seen));
    }

    [Fact]
    public async Task Check11_ModifiedFrom_GivesOnlyLaterOnes()
    {
        var (herd, times) = await Three();
        Assert.Equal(["2", "3"], await Ids(herd, $"?meta-modified-from={AdeHerd.Encoded(times[1])}"));
        Assert.Empty(await Ids(herd, $"?meta-modified-from={AdeHerd.Encoded(times[2] + Duration.FromTicks(1))}"));
    }

    [Fact]
    public async Task Check12_ModifiedFrom_IncludesItsInstant()
    {
        var (herd, _) = await Three();
        foreach (var heat in await herd.All("heats"))
        {
            var modified = Uri.EscapeDataString((string)heat["meta"]!["modified"]!);
            Assert.Contains((string)heat["meta"]!["sourceId"]!, await Ids(herd, $"?meta-modified-from={modified}"));
            Assert.Contains((string)heat["meta"]!["sourceId"]!, await Ids(herd, $"?meta-modified-to={modified}"));
        }
    }

    [Fact]
    public async Task Check13_AdjoiningWindows_GiveEverything()
    {
        var (herd, times) = await Three();
        var (first, second) = (await Ids(herd, $"?meta-modified-to={AdeHerd.Encoded(times[1])}"), await Ids(herd, $"?meta-modified-from={AdeHerd.Encoded(times[1])}"));
        Assert.Equal(["1", "2", "3"], first.Union(second));
    }

    [Fact]
    public async Task Check14_AnyOffset_IsTheSameInstant()
    {
        var (herd, times) = await Three();
        var text = times[1].WithOffset(Offset.FromHours(2)).ToString("uuuu-MM-ddTHH:mm:ss.FFFFFFFFFo<g>", null);
        Assert.EndsWith("+02", text, StringComparison.Ordinal);
        Assert.Equal(["2", "3"], await Ids(herd, $"?meta-modified-from={Uri.EscapeDataString(text + ":00")}"));
        // Not encoded, the plus sign arrives as a blank.
        Assert.Equal(["2", "3"], await Ids(herd, $"?meta-modified-from={text}:00"));
    }

    [Theory]
    [InlineData("banana")]
    [InlineData("2026-11-01T08:00:00")]
    [InlineData("2026-11-01")]
    public async Task Check15_NoInstant_Is400(string value)
    {
        var herd = await AdeHerd.Create(host);
        foreach (var noun in AdeHerd.Nouns.Keys)
        {
            var error = Assert.Single(await AdeHerd.Refused(herd.Herd.Get($"/{noun}?meta-modified-from={value}"), 400))!;
            Assert.Equal(("meta-modified-from", 400), ((string?)error["instance"], error["status"]!.GetValue<int>()));
        }
    }

    [Fact]
    public async Task Check16_FromAfterTo_IsEmpty()
    {
        var (herd, times) = await Three();
        Assert.Empty(await Ids(herd, $"?meta-modified-from={AdeHerd.Encoded(times[2])}&meta-modified-to={AdeHerd.Encoded(times[0])}"));
    }

    [Fact]
    public async Task Check17_UnknownParameter_IsPassedOver()
    {
        var (herd, _) = await Three();
        Assert.Equal(["1", "2", "3"], await Ids(herd, "?colour=red&is-archived=false"));
    }

    [Fact]
    public async Task Check18_Animal_GivesOnlyHers_OnAllPages()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Batch("heats", [.. Enumerable.Range(0, 12).Select(i => AdeHerd.Message("heats", $"{i}", $"{i % 2}", $"2026-09-{i + 1:00}T00:00:00Z"))]);
        var hers = await herd.All("heats", "?animal-scheme=us.bovine&animal-id=1&page-size=2");
        Assert.Equal(6, hers.Count);
        Assert.All(hers, m => Assert.Equal("1", (string?)m["animal"]!["id"]));
        Assert.Equal("1", (string?)Assert.Single(await herd.All("animals", "?animal-scheme=us.bovine&animal-id=1"))["identifier"]!["id"]);
        Assert.Empty(await herd.All("heats", "?animal-scheme=us.bovine&animal-id=77"));
    }

    [Theory]
    [InlineData("animal-id=1")]
    [InlineData("animal-scheme=us.bovine")]
    public async Task Check19_OneOfTheTwo_Is400(string query)
    {
        var herd = await AdeHerd.Create(host);
        foreach (var noun in AdeHerd.Nouns.Keys)
        {
            await AdeHerd.Refused(herd.Herd.Get($"/{noun}?{query}"), 400);
        }
    }

    [Fact]
    public async Task Check20_AnotherIdentifier_GivesTheSameEvents()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("animals", AdeHerd.Message("animals", "a", "840 0031", "2026-10-01T00:00:00Z",
            """{"alternativeIdentifiers":[{"scheme":"std.iso.11785","id":"985"}],"managementTag":"12","specie":"Cattle","gender":"Female"}"""));
        await herd.Post("heats", AdeHerd.Message("heats", "h1", "8400031", "2026-10-01T00:00:00Z"));
        await herd.Post("heats", AdeHerd.Message("heats", "h2", "985", "2026-09-01T00:00:00Z", scheme: "std.iso.11785"));
        foreach (var query in new[] { "us.bovine&animal-id=8400031", "us.bovine&animal-id=840%200031", "std.iso.11785&animal-id=985", "org.reprolink.animal&animal-id=840%200031" })
        {
            var heats = await herd.All("heats", $"?animal-scheme={query}");
            Assert.Equal(["h1", "h2"], heats.Select(h => (string)h["meta"]!["sourceId"]!));
            Assert.All(heats, h => Assert.Equal("840 0031", (string?)h["animal"]!["id"]));
        }
    }

    private static async Task<IReadOnlyList<string>> Ids(AdeHerd herd, string query) =>
        [.. (await herd.All("heats", query)).Select(m => (string)m["meta"]!["sourceId"]!)];

    private async Task<(AdeHerd Herd, Instant[] Times)> Three()
    {
        var herd = await AdeHerd.Create(host);
        var times = new List<Instant>();
        for (var i = 1; i <= 3; i++)
        {
            await herd.Tick();
            await herd.Tick();
            var stored = await herd.Post("heats", AdeHerd.Message("heats", $"{i}", $"{i}", "2026-10-01T00:00:00Z"));
            times.Add(AdeHerd.Instants(stored["meta"]["modified"]));
        }

        return (herd, [.. times]);
    }

    /// <summary>A herd with at least one of everything, from both doors.</summary>
    private async Task<AdeHerd> Story()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Herd.Accept("""
            [{"sourceId":"f1","kind":"animal","animal":"7","born":"2022-03-01","breed":"Holstein","parity":1,"pen":"4","identifiers":[{"scheme":"us.bovine","id":"700"}]},
             {"sourceId":"f2","kind":"calving","animal":"7","date":"2026-06-01"},
             {"sourceId":"f3","kind":"insemination","animal":"7","date":"2026-08-20","time":"08:00","sire":"B77","sireBreed":"Angus","technician":"Kim"},
             {"sourceId":"f4","kind":"natural-service","animal":"8","date":"2026-08-12","sire":"Bo"},
             {"sourceId":"f5","kind":"embryo-transfer","animal":"9","date":"2026-08-17","embryoAgeDays":6,"embryoBreed":"Jersey"},
             {"sourceId":"f6","kind":"exposure","animal":"10","date":"2026-08-01","until":"2026-09-15"},
             {"sourceId":"f7","kind":"loss","animal":"8","date":"2026-10-01","examined":true},
             {"sourceId":"f8","kind":"examination","animal":"9","date":"2026-10-02","method":"ultrasound","outcome":"pregnant","examiner":"Dr Hale"},
             {"sourceId":"f9","kind":"treatment","animal":"7","date":"2026-10-02","agent":"gnrh"},
             {"sourceId":"f10","kind":"treatment","animal":"7","date":"2026-10-02","agent":"insert-in","notDone":true},
             {"sourceId":"f11","kind":"departure","animal":"11","date":"2026-10-02","reason":"sold to a neighbour"},
             {"sourceId":"f12","kind":"departure","animal":"12","date":"2026-10-02","reason":"Died of old age"},
             {"sourceId":"f13","kind":"sample","animal":"7","date":"2026-10-01"},
             {"sourceId":"f14","kind":"arrival","animal":"10","date":"2026-07-01"}]
            """);
        Assert.Equal(HttpStatusCode.OK, (await herd.Herd.Post("/test-results", """
            [{"sourceId":"r1","animal":"7","sampled":"2026-10-01","method":"blood","outcome":"recheck","value":0.25,"unit":"S-N","assay":"herd-default","tube":"T1"},
             {"sourceId":"r2","animal":"8","sampled":"2026-09-20","method":"blood","outcome":"invalid"}]
            """)).Status);
        Assert.Equal(HttpStatusCode.Created, (await herd.Herd.Post("/sampling-rounds", """{"date":"2026-10-08","animals":["8","7"]}""")).Status);
        foreach (var (noun, own) in Sent)
        {
            await herd.Post(noun, AdeHerd.Message(noun, $"ade-{noun}", noun is "departures" or "deaths" ? $"20-{noun}" : "20", "2026-10-02T11:00:00Z", own));
        }

        return herd;
    }

    private static readonly IReadOnlyDictionary<string, string> Sent = new Dictionary<string, string>
    {
        ["animals"] = """{"specie":"Cattle","gender":"Female","birthDate":"2023-01-01T00:00:00Z","primaryBreed":{"scheme":"icar.breed-3","id":"HOL"}}""",
        ["arrivals"] = """{"arrivalReason":"Purchase","animalState":{"currentLactationParity":2,"lastCalvingDate":"2026-05-02","lastInseminationDate":"2026-08-01"}}""",
        ["inseminations"] = """{"inseminationType":"RunWithBull","sireIdentifiers":[{"scheme":"us.bovine","id":"B9"}],"eventEndDateTime":"2026-10-03T11:00:00Z"}""",
        ["pregnancy-checks"] = """{"method":"Milk","result":"Empty"}""",
        ["heats"] = """{"heatDetectionMethod":"Collar","certainty":"Suspect"}""",
        ["parturitions"] = """{"liveProgeny":1,"calvingEase":"EasyUnassisted"}""",
        ["abortions"] = "{}",
        ["do-not-breeds"] = """{"doNotBreed":true,"remark":"old"}""",
        ["drying-offs"] = "{}",
        ["departures"] = """{"departureKind":"Sale","departureReason":"Fertility"}""",
        ["deaths"] = """{"deathReason":"Disease"}""",
        ["treatments"] = """{"procedure":"PGF"}""",
    };
}
