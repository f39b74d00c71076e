using System.Net;
using System.Text.Json.Nodes;
using NodaTime;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Exchange.Conformance;

/// <content>What holds for readers and senders alike.</content>
public sealed partial class ConformanceTests
{
    [Fact]
    public async Task Check43_APollerDuringParallelWrites_EndsWithTheFinalState()
    {
        var herd = await AdeHerd.Create(host);
        var writing = Enumerable.Range(0, 8).Select(writer => Task.Run(async () =>
        {
            for (var i = 0; i < 25; i++)
            {
                // Few ids, so that most writes replace or take back what another wrote.
                var message = AdeHerd.Message("heats", $"{i % 7}", $"{(writer + i) % 5}", $"2026-09-{1 + ((i * 3) % 20):00}T00:00:00Z");
                if ((i + writer) % 4 == 0)
                {
                    message["meta"]!["isDeleted"] = true;
                }

                await herd.Batch("heats", message);
                if (writer == 0)
                {
                    await herd.Tick();
                }
            }
        })).ToArray();
        var known = new Dictionary<string, JsonNode>();
        var from = "2000-01-01T00:00:00Z";
        for (var last = false; ;)
        {
            var done = Task.WhenAll(writing).IsCompleted;
            foreach (var message in await herd.All("heats", $"?page-size=3&meta-modified-from={Uri.EscapeDataString(from)}"))
            {
                from = (string)message["meta"]!["modified"]!;
                known[(string)message["meta"]!["sourceId"]!] = message;
            }

            if (last)
            {
                break;
            }

            last = done;
        }

        await Task.WhenAll(writing);
        Assert.Equal(
            (await herd.All("heats")).Select(Essence).Order(),
            known.Values.Where(m => m["meta"]!["isDeleted"] is null).Select(Essence).Order());

        static string Essence(JsonNode m) => $"{m["meta"]!["sourceId"]} {m["animal"]!["id"]} {m["eventDateTime"]} {m["meta"]!["modified"]}";
    }

    [Fact]
    public async Task Check44_Modified_NeverGoesBackwardsInAnAnswer()
    {
        var herd = await Story();
        await herd.Tick();
        await herd.Post("heats", AdeHerd.Message("heats", "early", "20", "2026-01-01T00:00:00Z"));
        await herd.Post("inseminations", AdeHerd.Service("early-s", "1", "2026-01-02T00:00:00Z"));
        foreach (var noun in AdeHerd.Nouns.Keys)
        {
            var modified = (await herd.All(noun, "?page-size=2")).Select(m => AdeHerd.Instants(m["meta"]!["modified"])).ToArray();
            Assert.Equal(modified.Order(), modified);
        }
    }

    [Fact]
    public async Task Check45_Access_IsRefusedInTheStandardsForm_AndAForeignLocationLooksMissing()
    {
        await using var production = new ApiHostFixture { Environment = "Production" };
        using var nobody = production.CreateClient();
        var none = new AdeHerd(production, new HerdClient(nobody, "/locations/farm/x"));
        await AdeHerd.Refused(none.Herd.Get("/heats"), 401);
        await AdeHerd.Refused(none.Herd.Get("//locations"), 401);

        var herd = await AdeHerd.Create(host);
        var (elsewhere, _) = await host.Store.Keys.Create($"ade-{Interlocked.Increment(ref _keys)}", KeyRole.Manager, [new LocationKey("farm", "elsewhere")], Instant.FromUtc(2026, 10, 1, 0, 0));
        var foreign = herd.Herd.With(host, elsewhere);
        var missing = new HerdClient(host.CreateClient(), "/locations/farm/missing").With(host, elsewhere);
        await AdeHerd.Refused(foreign.Get("/heats"), 404);
        Assert.Equal((await missing.Get("/heats")).Text, (await foreign.Get("/heats")).Text);

        var (reader, _) = await host.Store.Keys.Create($"ade-{Interlocked.Increment(ref _keys)}", KeyRole.Reader, null, Instant.FromUtc(2026, 10, 1, 0, 0));
        await AdeHerd.Refused(herd.Herd.With(host, reader).Post("/heats", AdeHerd.Message("heats", "h", "1", "2026-10-01T00:00:00Z").ToJsonString()), 403);
        Assert.Equal(HttpStatusCode.OK, (await herd.Herd.With(host, reader).Get("/heats")).Status);
    }

    [Fact]
    public async Task Check46_NoSuchAddressOrMethod_IsRefusedInTheStandardsForm()
    {
        var herd = await AdeHerd.Create(host);
        await AdeHerd.Refused(herd.Herd.Get("/nonsense", "application/json"), 404);
        await AdeHerd.Refused(herd.Herd.Get("/group-births"), 404);
        await AdeHerd.Refused(herd.Herd.Get($"//batches{herd.Herd.Address}/nonsense"), 404);
        await AdeHerd.Refused(herd.Herd.Get("/pregnancy-checks/f_0000000000000"), 404);
        await AdeHerd.Refused(herd.Herd.Get("/pregnancy-checks/anything"), 404);
        await AdeHerd.Refused(herd.Herd.Send(HttpMethod.Delete, "/pregnancy-checks", null, null), 405);
        await AdeHerd.Refused(herd.Herd.Post("/gestations", "{}"), 405);
        // Beside them our own addresses keep our own form.
        Assert.Equal("application/problem+json", (await herd.Herd.Get("/animals/nobody/test-window")).MediaType);
    }

    [Fact]
    public async Task Check47_Straw_WithoutItsType_IsTaken_AndGoesOutWithIt()
    {
        var herd = await AdeHerd.Create(host);
        var service = AdeHerd.Service("s", "1", own: """{"inseminationType":"Insemination","straw":{"sireIdentifiers":[{"scheme":"us.bovine","id":"B77"}]}}""");
        var stored = await herd.Post("inseminations", service);
        Assert.Equal(("icarReproSemenStrawResource", "B77"), ((string?)stored["straw"]["resourceType"], (string?)stored["straw"]["sireOfficialName"]));
    }

    [Fact]
    public async Task Check48_InseminationWithoutType_Is400()
    {
        var herd = await AdeHerd.Create(host);
        var error = Assert.Single((await herd.Post("inseminations", AdeHerd.Service("s", "1", own: "{}"), HttpStatusCode.BadRequest))["errors"].AsArray())!;
        Assert.Equal("/inseminationType", (string?)error["instance"]);
    }

    [Fact]
    public async Task Check49_DoNotBreed_AbsentIsTrue_FalseMeansBreedAgain()
    {
        var herd = await AdeHerd.Create(host);
        Assert.True((bool)(await herd.Post("do-not-breeds", AdeHerd.Message("do-not-breeds", "d", "1", "2026-09-01T00:00:00Z")))["doNotBreed"]);
        Assert.Equal("DoNotBreed", (string?)Assert.Single(await herd.All("repro-status-observations"))["observedStatus"]);
        Assert.False((bool)(await herd.Post("do-not-breeds", AdeHerd.Message("do-not-breeds", "e", "1", "2026-09-02T00:00:00Z", """{"doNotBreed":false}""")))["doNotBreed"]);
        Assert.Empty(await herd.All("repro-status-observations"));
    }

    [Fact]
    public async Task Check50_Gestations_ComeAndGoWithChecks()
    {
        var herd = await Served();
        await herd.Post("pregnancy-checks", AdeHerd.Check("c1", "1"));
        var gestation = Assert.Single(await herd.All("gestations"));
        // 283 days from 20 August, at midday in Chicago.
        Assert.Equal("2027-05-30T17:00:00Z", (string?)gestation["expectedCalvingDate"]);
        Assert.Equal("Pregnant", (string?)Assert.Single(await herd.All("repro-status-observations"))["observedStatus"]);
        var later = await herd.Tick();
        await herd.Post("pregnancy-checks", AdeHerd.Check("c1", "1", "Empty"));
        Assert.Empty(await herd.All("gestations"));
        var told = Assert.Single(await herd.All("gestations", $"?meta-modified-from={AdeHerd.Encoded(later)}"));
        Assert.Equal((true, (string?)gestation["id"]), ((bool)told["meta"]!["isDeleted"]!, (string?)told["id"]));
        Assert.Equal("NotPregnant", (string?)Assert.Single(await herd.All("repro-status-observations"))["observedStatus"]);
    }

    [Fact]
    public async Task Check51_HeadIsDeclined_AndUnchangedAnswersAreNotSentAgain()
    {
        var herd = await Served();
        using var client = host.CreateClient();
        using var head = await client.SendAsync(new HttpRequestMessage(HttpMethod.Head, herd.Herd.Address + "/inseminations"));
        Assert.Equal(HttpStatusCode.MethodNotAllowed, head.StatusCode);
        using var first = await client.GetAsync(herd.Herd.Address + "/inseminations");
        var tag = first.Headers.ETag;
        Assert.NotNull(tag);
        Assert.Equal(HttpStatusCode.NotModified, (await Again()).StatusCode);
        await herd.Post("inseminations", AdeHerd.Service("s2", "2"));
        Assert.Equal(HttpStatusCode.OK, (await Again()).StatusCode);

        async Task<HttpResponseMessage> Again()
        {
            var request = new HttpRequestMessage(HttpMethod.Get, herd.Herd.Address + "/inseminations");
            request.Headers.IfNoneMatch.Add(tag);
            return await client.SendAsync(request);
        }
    }

    [Theory]
    [InlineData("gzip")]
    [InlineData("br")]
    public async Task Check51_Compression_Works(string encoding)
    {
        var herd = await Story();
        using var client = host.CreateClient();
        client.DefaultRequestHeaders.AcceptEncoding.ParseAdd(encoding);
        using var answer = await client.GetAsync(herd.Herd.Address + "/inseminations");
        Assert.Equal(encoding, Assert.Single(answer.Content.Headers.ContentEncoding));
        await using Stream packed = await answer.Content.ReadAsStreamAsync();
        await using Stream plain = encoding == "br"
            ? new System.IO.Compression.BrotliStream(packed, System.IO.Compression.CompressionMode.Decompress)
            : new System.IO.Compression.GZipStream(packed, System.IO.Compression.CompressionMode.Decompress);
        AdeSchemas.Page((await JsonNode.ParseAsync(plain))!, "icarReproInseminationEventCollection", "icarReproInseminationEventResource");
    }

    [Fact]
    public async Task Check52_EveryRefusal_IsTheStandardsErrorCollection()
    {
        var herd = await Served();
        foreach (var noun in AdeHerd.Nouns.Keys)
        {
            await AdeHerd.Refused(herd.Herd.Get($"/{noun}?cursor=nonsense"), 400);
            await AdeHerd.Refused(herd.Herd.Get($"/{noun}?page-size=0&meta-modified-to=x"), 400);
            await AdeHerd.Refused(herd.Herd.Send(HttpMethod.Put, $"/{noun}", "{}", "application/json"), 405);
            if (Sent.ContainsKey(noun))
            {
                await AdeHerd.Refused(herd.Herd.Post($"/{noun}", "{}"), 400);
                await AdeHerd.Refused(herd.Herd.Post($"/{noun}", """{"meta":7,"animal":[],"identifier":"x","eventDateTime":{},"resourceType":[]}"""), 400);
            }
        }
    }

    [Fact]
    public async Task Check53_GenericExchange_IsNotClaimed() =>
        Assert.Equal(HttpStatusCode.NotFound, (await (await AdeHerd.Create(host)).Herd.Get("//datasets")).Status);

    [Fact]
    public async Task Check54_Self_GivesTheSameEvent()
    {
        var herd = await Story();
        foreach (var noun in Sent.Keys)
        {
            foreach (var message in (await herd.All(noun)).Where(m => m["@self"] is not null))
            {
                var same = await herd.Herd.Get("/" + new Uri((string)message["@self"]!).PathAndQuery);
                Assert.True(same.Status == HttpStatusCode.OK, same.Text);
                Assert.Equal(message.ToJsonString(), same.Json!.ToJsonString());
            }
        }
    }
}
