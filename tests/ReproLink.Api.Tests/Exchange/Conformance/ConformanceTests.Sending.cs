using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Limits;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Tests.Exchange.Conformance;

/// <content>What a sender may count on.</content>
public sealed partial class ConformanceTests
{
    /// <summary>A herd in which animal 1 was served long enough ago.</summary>
    private async Task<AdeHerd> Served()
    {
        var herd = await AdeHerd.Create(host);
        await herd.Post("inseminations", AdeHerd.Service("s1", "1"));
        return herd;
    }

    [Fact]
    public async Task Check21_Post_AnswersTheStoredEvent()
    {
        var herd = await Served();
        var stored = await herd.Post("pregnancy-checks", AdeHerd.Check("c1", "1"));
        Assert.Equal(("Pregnant", "Blood", "pregnant"), ((string?)stored["result"], (string?)stored["method"], (string?)stored[AdeSchemas.Extension]["decides"]));
    }

    [Fact]
    public async Task Check22_ThenGet_ItIsThere()
    {
        var herd = await Served();
        var before = await herd.Tick();
        await herd.Post("pregnancy-checks", AdeHerd.Check("c1", "1"));
        var check = Assert.Single(await herd.All("pregnancy-checks"));
        Assert.Equal(("org.example.herd", "c1"), ((string?)check["meta"]!["source"], (string?)check["meta"]!["sourceId"]));
        Assert.False(string.IsNullOrEmpty((string?)check["id"]));
        Assert.True(AdeHerd.Instants(check["meta"]!["modified"]) >= before);
        Assert.Equal("2026-10-01T11:00:00Z", (string?)check["eventDateTime"]);
        Assert.Equal(("us.bovine", "1"), ((string?)check["animal"]!["scheme"], (string?)check["animal"]!["id"]));
    }

    [Fact]
    public async Task Check23_SameAgain_IsOneEvent()
    {
        var herd = await Served();
        var first = await herd.Post("pregnancy-checks", AdeHerd.Check("c1", "1"));
        await herd.Tick();
        var again = await herd.Post("pregnancy-checks", AdeHerd.Check("c1", "1"));
        Assert.Equal(first.Text, again.Text);
        Assert.Single(await herd.All("pregnancy-checks"));
    }

    [Fact]
    public async Task Check24_ChangedResult_ReplacesIt()
    {
        var herd = await Served();
        var first = await herd.Post("pregnancy-checks", AdeHerd.Check("c1", "1"));
        await herd.Tick();
        await herd.Post("pregnancy-checks", AdeHerd.Check("c1", "1", "Empty"));
        var check = Assert.Single(await herd.All("pregnancy-checks"));
        Assert.Equal(("Empty", (string?)first["id"]), ((string?)check["result"], (string?)check["id"]));
        Assert.True(AdeHerd.Instants(check["meta"]!["modified"]) > AdeHerd.Instants(first["meta"]["modified"]));
        // Told once, as what it is now, also to a reader who asks for what is gone.
        Assert.False((bool?)Assert.Single(await herd.All("pregnancy-checks", "?meta-modified-from=2000-01-01T00:00:00Z"))["meta"]!["isDeleted"] ?? false);
    }

    [Fact]
    public async Task Check25_WithoutResourceType_Is400() =>
        await Refused(await Served(), Without("resourceType"), "/resourceType");

    [Fact]
    public async Task Check26_WithoutAnimalOrItsScheme_Is400()
    {
        var herd = await Served();
        await Refused(herd, Without("animal"), "/animal");
        var check = AdeHerd.Check("c1", "1");
        check["animal"]!.AsObject().Remove("scheme");
        await Refused(herd, check, "/animal/scheme");
    }

    [Fact]
    public async Task Check27_WithoutSourceId_Is400()
    {
        var herd = await Served();
        var check = AdeHerd.Check("c1", "1");
        check["meta"]!.AsObject().Remove("sourceId");
        await Refused(herd, check, "/meta/sourceId");
        await Refused(herd, Without("meta"), "/meta");
    }

    [Fact]
    public async Task Check28_AnotherMessagesType_Is400() =>
        await Refused(await Served(), With("resourceType", "icarReproHeatEventResource"), "/resourceType", "icarReproPregnancyCheckEventResource");

    [Fact]
    public async Task Check29_UnknownWord_Is400AndSaysWhichAreAllowed()
    {
        var herd = await Served();
        await Refused(herd, With("result", "Inconclusive"), "/result", "Empty, Pregnant, Multiple, Unknown");
        await Refused(herd, With("method", "blood"), "/method", "Echography, Palpation, Blood, Milk");
        // No test stands behind a look: it must never release prostaglandin.
        await Refused(herd, With("method", "Visual"), "/method", "Blood");
        await Refused(herd, Without("method"), "/method");
    }

    [Theory]
    [InlineData("2026-10-01T11:00:00")]
    [InlineData("2026-10-01")]
    [InlineData("2999-10-01T11:00:00Z")]
    public async Task Check30_NoZoneOrInTheFuture_Is400(string when) =>
        await Refused(await Served(), With("eventDateTime", when), "/eventDateTime");

    [Fact]
    public async Task Check31_UnknownProperties_ArePassedOver()
    {
        var herd = await Served();
        var check = With("marker", "PAG");
        check["org.example.lab"] = new JsonObject { ["anything"] = new JsonArray(1, 2) };
        check["animal"]!["colour"] = "red";
        check["meta"]!["weather"] = "fine";
        await herd.Post("pregnancy-checks", check);
        Assert.Single(await herd.All("pregnancy-checks"));
    }

    [Fact]
    public async Task Check32_Nulls_AreAbsent()
    {
        var herd = await Served();
        var check = AdeHerd.Check("c1", "1");
        foreach (var name in new[] { "foetalAge", "foetusCount", "exceptions", "responsible", "remark", "location", "id" })
        {
            check[name] = null;
        }

        check["meta"]!["validFrom"] = null;
        check["meta"]!["isDeleted"] = null;
        await herd.Post("pregnancy-checks", check);
        var nothing = AdeHerd.Message("do-not-breeds", "d", "1", "2026-10-01T00:00:00Z", """{"doNotBreed":null}""");
        Assert.True((bool?)(await herd.Post("do-not-breeds", nothing))["doNotBreed"]);
    }

    [Fact]
    public async Task Check33_UnknownAnimal_MakesHer_ButAResultWaitsUntilSheIsKnown()
    {
        var herd = await AdeHerd.Create(host);
        var waits = await herd.Post("pregnancy-checks", AdeHerd.Check("c1", "1"), HttpStatusCode.Accepted);
        AdeSchemas.Results(new JsonArray(waits.Json!.DeepClone()));
        var address = "/" + waits.Headers.Location!.PathAndQuery;
        Assert.Equal(HttpStatusCode.Accepted, (await herd.Herd.Get(address)).Status);
        Assert.Equal("Warning", (string?)(await herd.Batch("pregnancy-checks", AdeHerd.Check("c1", "1")))[0]!["messages"]![0]!["severity"]);
        Assert.Empty(await herd.All("pregnancy-checks"));

        await herd.Post("inseminations", AdeHerd.Service("s1", "1"));
        Assert.Equal("c1", (string?)Assert.Single(await herd.All("pregnancy-checks"))["meta"]!["sourceId"]);
        var known = await herd.Herd.Get(address);
        Assert.Equal(HttpStatusCode.OK, known.Status);
        AdeSchemas.Message(known.Json!, "icarReproPregnancyCheckEventResource");
    }

    [Fact]
    public async Task Check34_WrongBodies_AreRefused()
    {
        var herd = await Served();
        await AdeHerd.Refused(herd.Herd.Post("/pregnancy-checks", "{"), 400);
        await AdeHerd.Refused(herd.Herd.Post("/pregnancy-checks", "[]"), 400);
        await AdeHerd.Refused(herd.Herd.Post("/pregnancy-checks", "{}", "text/plain"), 415);
        await AdeHerd.Refused(herd.Herd.Post($"//batches{herd.Herd.Address}/pregnancy-checks", "[{]"), 400);
        await AdeHerd.Refused(herd.Herd.Post($"//batches{herd.Herd.Address}/pregnancy-checks", "[]", "text/plain"), 415);
    }

    [Fact]
    public async Task Check35_Batch_AnswersEachItemInOrder()
    {
        var herd = await Served();
        var results = await herd.Batch("pregnancy-checks", AdeHerd.Check("c3", "1"), AdeHerd.Check("c1", "1", when: "2026-10-02T11:00:00Z"), AdeHerd.Check("c2", "1", when: "2026-10-03T11:00:00Z"));
        Assert.Equal(["c3", "c1", "c2"], results.Select(r => (string)r!["meta"]!["sourceId"]!));
        Assert.All(results, r => Assert.False(string.IsNullOrEmpty((string?)r!["id"])));
        Assert.Equal(results.Select(r => (string?)r!["id"]), (await herd.All("pregnancy-checks")).Select(m => (string?)m["id"]));
    }

    [Fact]
    public async Task Check36_OneBadItem_SparesTheOthers()
    {
        var herd = await Served();
        var bad = AdeHerd.Check("c2", "1");
        bad.Remove("eventDateTime");
        bad["result"] = "Perhaps";
        var results = await herd.Batch("pregnancy-checks", AdeHerd.Check("c1", "1"), bad, AdeHerd.Check("c3", "1", when: "2026-10-03T11:00:00Z"), JsonValue.Create(7));
        Assert.NotNull(results[0]!["id"]);
        Assert.NotNull(results[2]!["id"]);
        Assert.Null(results[1]!["id"]);
        Assert.Equal("c2", (string?)results[1]!["meta"]!["sourceId"]);
        Assert.Equal(["/eventDateTime", "/result"], results[1]!["messages"]!.AsArray().Select(m => (string)m!["instance"]!));
        Assert.All(results[1]!["messages"]!.AsArray().Concat(results[3]!["messages"]!.AsArray()), m => Assert.Equal("Error", (string?)m!["severity"]));
        Assert.Equal(["c1", "c3"], (await herd.All("pregnancy-checks")).Select(m => (string)m["meta"]!["sourceId"]!));
    }

    [Fact]
    public async Task Check37_BatchInAWrapper_Is400()
    {
        var herd = await Served();
        var wrapped = new JsonObject { ["view"] = new JsonObject(), ["member"] = new JsonArray(AdeHerd.Check("c1", "1")) };
        await AdeHerd.Refused(herd.Herd.Post($"//batches{herd.Herd.Address}/pregnancy-checks", wrapped.ToJsonString()), 400);
        Assert.Empty(await herd.All("pregnancy-checks"));
    }

    [Fact]
    public async Task Check38_EmptyBatch_IsAnEmptyAnswer() => Assert.Empty(await (await Served()).Batch("pregnancy-checks"));

    [Fact]
    public async Task Check39_SameIdTwiceInABatch_TheLastCounts()
    {
        var herd = await Served();
        var results = await herd.Batch("pregnancy-checks", AdeHerd.Check("c1", "1"), AdeHerd.Check("c1", "1", "Empty"));
        Assert.Equal(results[0]!["id"]!.ToString(), results[1]!["id"]!.ToString());
        Assert.Equal("Empty", (string?)Assert.Single(await herd.All("pregnancy-checks"))["result"]);

        var gone = AdeHerd.Check("c1", "1");
        gone["meta"]!["isDeleted"] = true;
        await herd.Batch("pregnancy-checks", AdeHerd.Check("c1", "1", "Pregnant"), gone);
        Assert.Empty(await herd.All("pregnancy-checks"));
        await herd.Batch("pregnancy-checks", gone, AdeHerd.Check("c1", "1", "Unknown"));
        Assert.Equal("Unknown", (string?)Assert.Single(await herd.All("pregnancy-checks"))["result"]);
    }

    [Fact]
    public async Task Check40_TooLargeABatch_Is413()
    {
        var herd = await Served();
        var many = "[" + string.Join(",", Enumerable.Repeat("{}", BatchBody.MaxItems + 1)) + "]";
        var error = Assert.Single(await AdeHerd.Refused(herd.Herd.Post($"//batches{herd.Herd.Address}/heats", many), 413))!;
        Assert.Contains("at most 10000", (string?)error["detail"], StringComparison.Ordinal);
        await AdeHerd.Refused(herd.Herd.Post($"//batches{herd.Herd.Address}/heats", new string(' ', new ServiceLimits().BodyBytes + 1)), 413);
    }

    [Fact]
    public async Task Check41_Tombstone_TakesItBack_AndIsTold()
    {
        foreach (var (noun, own) in Sent)
        {
            var herd = await AdeHerd.Create(host);
            await herd.Post("inseminations", AdeHerd.Service("s1", "20"));
            var message = AdeHerd.Message(noun, "x", "20", "2026-10-02T11:00:00Z", own);
            var first = await herd.Post(noun, message);
            var later = await herd.Tick();
            message["meta"]!["isDeleted"] = true;
            var gone = await herd.Post(noun, message);
            Assert.True((bool)gone["meta"]["isDeleted"]!);
            Assert.DoesNotContain(await herd.All(noun), m => (string?)m["meta"]!["sourceId"] == "x");
            if (noun != "animals")
            {
                // An animal who has other facts is still there; her card is gone.
                var told = Assert.Single(await herd.All(noun, $"?meta-modified-from={AdeHerd.Encoded(later)}"), m => (string?)m["meta"]!["sourceId"] == "x");
                Assert.True((bool)told["meta"]!["isDeleted"]!);
                Assert.Equal((string?)first["id"], (string?)told["id"]);
                Assert.True(AdeHerd.Instants(told["meta"]!["modified"]) >= later);
            }

            // Sent once more it is there again.
            message["meta"]!.AsObject().Remove("isDeleted");
            await herd.Post(noun, message);
            Assert.Single(await herd.All(noun), m => (string?)m["meta"]!["sourceId"] == "x");
        }
    }

    [Fact]
    public async Task Check42_TombstoneOfNothing_IsTaken()
    {
        var herd = await Served();
        var gone = AdeHerd.Check("never", "1");
        gone["meta"]!["isDeleted"] = true;
        var answer = await herd.Post("pregnancy-checks", gone, HttpStatusCode.Accepted);
        AdeSchemas.Results(new JsonArray(answer.Json!.DeepClone()));
        Assert.Empty(await herd.All("pregnancy-checks", "?meta-modified-from=2000-01-01T00:00:00Z"));
        Assert.Equal("Information", (string?)(await herd.Batch("pregnancy-checks", gone))[0]!["messages"]![0]!["severity"]);
    }

    private static JsonObject With(string name, string value)
    {
        var check = AdeHerd.Check("c1", "1");
        check[name] = value;
        return check;
    }

    private static JsonObject Without(string name)
    {
        var check = AdeHerd.Check("c1", "1");
        check.Remove(name);
        return check;
    }

    private static async Task Refused(AdeHerd herd, JsonObject message, string instance, string detail = "")
    {
        var answer = await herd.Post("pregnancy-checks", message, HttpStatusCode.BadRequest);
        var error = Assert.Single(answer["errors"].AsArray())!;
        Assert.Equal(instance, (string?)error["instance"]);
        Assert.Contains(detail, (string?)error["detail"], StringComparison.Ordinal);
        Assert.Empty(await herd.All("pregnancy-checks"));
    }
}
