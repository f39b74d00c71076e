using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using NodaTime;
using ReproLink.Api.Archives;
using ReproLink.Api.Commands.Demo;
using ReproLink.Api.Facts;
using ReproLink.Api.Protocols;
using ReproLink.Api.Tests.Exchange;
using ReproLink.Api.Tests.Intake;
using ReproLink.Api.Tests.Laws;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.HerdFiles;

/// <summary>A herd taken out and put back is the same herd: now, and at every moment of its past.</summary>
public sealed class RoundTripTests
{
    private const int Animals = 20;
    private static readonly string[] Moments = ["2026-10-05T12:10:00Z", "2026-10-05T12:30:00Z", "2026-10-05T13:10:00Z"];

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public async Task Put_back_into_another_service_it_answers_the_same_now_and_at_every_earlier_moment(int seed)
    {
        await using var host = new ApiHostFixture();
        await using var other = new ApiHostFixture();
        var herd = await Lived(host, seed);
        var zip = await herd.Export(host);
        var back = await HerdClient.Create(other, "Asia/Tokyo");
        await other.Set("2026-10-05T14:00:00Z");

        var answer = await back.Import(other, zip, "?approvals=restore");

        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
        Assert.Equal(await Everything(herd, ""), await Everything(back, ""));
        foreach (var moment in Moments)
        {
            Assert.Equal(await Everything(herd, "&knownAt=" + moment), await Everything(back, "&knownAt=" + moment));
        }

        foreach (var path in new[] { "/facts?limit=1000", "/held-results?limit=500", "/received?limit=1000", "/sampling-rounds", "/programme/versions", "/protocols", "/result-mappings/valley", "/fact-mappings/book" })
        {
            Assert.Equal((await herd.Get(path)).Text, (await back.Get(path)).Text);
        }

        // And taken out again it is the same to the byte.
        Assert.Equal(zip, await back.Export(other));
    }

    [Fact]
    public async Task The_same_records_give_the_same_bytes_and_hold_no_secret()
    {
        await using var host = new ApiHostFixture();
        var herd = await Lived(host, 9);
        var link = await herd.Post("/calendar-links", """{"name":"my phone","style":"day"}""");
        var (secret, _) = await host.Store.Keys.Create("manager", KeyRoleManager, null, Instant.FromUtc(2026, 10, 1, 0, 0));
        var zip = await herd.Export(host);
        await host.Set("2026-10-05T15:00:00Z");
        Assert.Equal(zip, await herd.Export(host));
        var all = string.Concat(ZipFiles.Unpack(zip).Keys.Select(name => ZipFiles.Text(zip, name)));
        Assert.DoesNotContain(secret, all, StringComparison.Ordinal);
        Assert.DoesNotContain(((string)link["address"]!).Split('=')[^1], all, StringComparison.Ordinal);
        Assert.Contains("Prostaglandin", ZipFiles.Text(zip, ArchiveFiles.ReadMe), StringComparison.Ordinal);
    }

    private static Records.KeyRole KeyRoleManager => Records.KeyRole.Manager;

    [Fact]
    public async Task The_demo_herd_comes_back_the_same()
    {
        await using var host = new ApiHostFixture();
        await using var other = new ApiHostFixture();
        using var client = host.CreateClient();
        await new DemoHerd(host.Store, Instant.FromUtc(2026, 10, 5, 12, 0)).Load();
        var herd = new HerdClient(client, $"/locations/{DemoHerd.Location.Scheme}/{DemoHerd.Location.Id}");
        var back = await HerdClient.Create(other);
        var answer = await back.Import(other, await herd.Export(host), "?approvals=restore");
        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
        foreach (var path in new[] { "/bleed-list?from=2026-10-05&to=2026-11-01&detail=all", "/work-calendar?from=2026-09-01&to=2026-12-01&include=cancelled", "/bleed-list?from=2026-08-03&to=2026-08-09&asOf=2026-08-03&knownAt=2026-08-03T12:00:00Z", "/animals/1042/timeline" })
        {
            Assert.Equal((await herd.Get(path)).Text, (await back.Get(path)).Text);
        }
    }

    [Fact]
    public async Task A_herd_fed_by_the_exchange_standard_comes_back_the_same()
    {
        await using var host = new ApiHostFixture();
        var herd = await AdeHerd.Create(host);
        await herd.Post("animals", AdeHerd.Message("animals", "a1", "840 0031", "2026-01-01T00:00:00Z", """{"specie":"Cattle","gender":"Female","birthDate":"2022-03-01T00:00:00Z"}"""));
        await herd.Post("parturitions", AdeHerd.Message("parturitions", "p1", "840 0031", "2026-06-01T05:06:07.089Z"));
        await herd.Post("inseminations", AdeHerd.Service("s1", "840 0031"));
        await herd.Post("pregnancy-checks", AdeHerd.Check("r1", "840 0031"));
        await herd.Post("pregnancy-checks", AdeHerd.Check("r2", "840 0031", "Empty", "2026-09-28T11:00:00Z", "Echography"));
        await herd.Post("heats", AdeHerd.Message("heats", "h1", "77", "2026-09-01T00:00:00Z", scheme: "farm"));
        var zip = await herd.Herd.Export(host);
        var back = await HerdClient.Create(host);
        Assert.Equal(HttpStatusCode.OK, (await back.Import(host, zip)).Status);
        Assert.Equal((await herd.Herd.Get("/facts?limit=1000")).Text, (await back.Get("/facts?limit=1000")).Text);
        Assert.Equal((await herd.Herd.Get("/received")).Text, (await back.Get("/received")).Text);
        Assert.Equal(zip, await back.Export(host));
    }

    [Fact]
    public async Task What_comes_after_goes_on_where_the_herd_was()
    {
        await using var host = new ApiHostFixture();
        var herd = await Lived(host, 11);
        var back = await HerdClient.Create(host);
        Assert.Equal(HttpStatusCode.OK, (await back.Import(host, await herd.Export(host), "?approvals=restore")).Status);
        foreach (var place in new[] { herd, back })
        {
            // A corrected fact replaces the one put back, the next round has the next number, held results are found.
            await place.Post("/facts", """[{"sourceId":"f-1","kind":"calving","animal":"101","date":"2026-05-05"},{"sourceId":"late","kind":"animal","animal":"nobody","parity":1}]""");
            await place.Post("/sampling-rounds", """{"date":"2026-10-08","animals":["102"]}""");
            await place.Post("/facts", """[{"sourceId":"f-1","kind":"calving","animal":"101","date":"2026-05-06"}]""");
        }

        Assert.Equal(await Everything(herd, ""), await Everything(back, ""));
        Assert.Equal((await herd.Get("/held-results?limit=500")).Text, (await back.Get("/held-results?limit=500")).Text);
        Assert.Equal((await herd.Get("/sampling-rounds")).Text, (await back.Get("/sampling-rounds")).Text);
        Assert.Equal(await herd.Export(host), await back.Export(host));
    }

    [Fact]
    public async Task Who_follows_the_changes_misses_nothing_of_a_herd_put_back()
    {
        await using var host = new ApiHostFixture();
        var herd = await Lived(host, 12);
        var back = await HerdClient.Create(host);
        var before = await back.Get("/changes");
        Assert.True(before.Status == HttpStatusCode.OK, before.Text);
        await host.Set("2026-10-05T16:00:00Z");
        await back.Import(host, await herd.Export(host));
        var after = await back.Get($"/changes?limit=1000&after={before["next"]}");
        var told = after["changes"].AsArray();
        Assert.NotEmpty(told);
        // Told as of now, in an order that never runs backwards.
        Assert.All(told, c => Assert.Equal("2026-10-05T16:00:00Z", (string?)c!["at"]));
    }

    /// <summary>A herd to which much has happened, at several moments.</summary>
    private static async Task<HerdClient> Lived(ApiHostFixture host, int seed)
    {
        var histories = new RandomHistories(seed);
        var herd = await HerdClient.Create(host);
        await herd.Put("/programme", """{"inForceFrom":"2025-01-01","resynchronisation":{"protocolHeifer":"cosynch-5d-insert-dairy-heifer"},"firstService":{"voluntaryWaitingPeriodDays":60,"protocol":"double-ovsynch-56","startDays":["friday"]}}""");
        await herd.Post("/programme/approvals", """{"version":1,"expires":"2027-09-01"}""");
        Assert.Equal(HttpStatusCode.Created, (await herd.Post("/protocols", ProtocolExamples.Own)).Status);
        var facts = histories.Herd(Animals);
        await Post(herd, "/facts", facts);
        await Post(herd, "/test-results", histories.Results(Animals, 15));

        await host.Set("2026-10-05T12:20:00Z");
        await herd.Put("/result-mappings/valley", MappingTests.Mapping);
        await herd.Put("/fact-mappings/book", FactMappingEndpoints.Example);
        Assert.Equal(HttpStatusCode.Created, (await herd.Post("/sampling-rounds", """{"date":"2026-10-05","name":"Monday","animals":["101","102","103","104"]}""")).Status);
        await herd.Put("/sampling-rounds/R1/tubes/R1-001", """{"state":"drawn","time":"06:41","by":"Ana"}""");
        await herd.Put("/sampling-rounds/R1/tubes/R1-002", """{"state":"short","time":"06:45"}""");
        await herd.Put("/sampling-rounds/R1/tubes/R1-003", """{"state":"not-drawn","reason":"refused"}""");
        await herd.Post("/sampling-rounds/R1/dispatch", "{}");

        await host.Set("2026-10-05T12:40:00Z");
        // Held, rejected, replaced, withdrawn; names that need care in CSV.
        await herd.Post("/test-results?sender=valley&file=monday.csv", "Lab no;Cow;Tube;Drawn;Result;S-N\r\n1;101;R1-001;05/10/2026;not preg;0,12\r\n2;nobody;;05/10/2026;Preg;\r\n3;102;R1-001;05/10/2026;Preg;\r\n4;;;;??;\"a \"\"quoted\"\";\ncell\"\r\n", "text/csv");
        await herd.Post("/facts", """
            [{"sourceId":"=1+1","kind":"animal","animal":"=SUM(A1), \"x\"; ' ","parity":1,"pen":" 4 ","breed":"Öhr, \"rot\"","identifiers":[{"scheme":"a","id":"0012;b=3"},{"scheme":"us.bovine","id":" 84"}]},
             {"sourceId":"e-1","kind":"examination","animal":"101","date":"2026-09-30","time":"07:10","method":"palpation","outcome":"pregnant","corpusLuteum":false,"examiner":"Dr Hale"},
             {"sourceId":"t-1","kind":"embryo-transfer","animal":"102","date":"2026-08-01","embryoAgeDays":8,"embryoBreed":"Jersey"},
             {"sourceId":"k-1","kind":"confirm","animal":"101","confirms":{"source":"local","sourceId":"f-1"},"reason":"calf seen"}]
            """.Replace(" ' \"", " '\"", StringComparison.Ordinal));
        await herd.Post("/test-results", """[{"sourceId":"u-1","animal":"103","sampled":"2026-09-29","method":"ultrasound","outcome":"open","corpusLuteum":true},{"sourceId":"v-1","animal":"104","sampled":"2026-09-29","outcome":"pregnant","value":0.1234567890123,"unit":"S-N","assay":"herd-default","reported":"2026-10-01T07:08:09.1234567Z"}]""");
        var again = facts.Where(f => (string?)f["kind"] == "insemination").Take(3).Select(f => Moved(f, "2026-09-01"));
        await Post(herd, "/facts", again);
        var ids = (await herd.Get("/facts?limit=40"))["facts"].AsArray().Where(f => (string?)f!["kind"] is "oestrus" or "loss" or "treatment").Take(3).Select(f => (string)f!["factId"]!).ToArray();
        foreach (var id in ids)
        {
            Assert.Equal(HttpStatusCode.OK, (await herd.Post($"/facts/{id}/withdraw", """{"reason":"wrong cow"}""")).Status);
        }

        await host.Set("2026-10-05T13:00:00Z");
        var held = (await herd.Get("/held-results?limit=100"))["held"].AsArray();
        Assert.NotEmpty(held);
        await herd.Post($"/held-results/{held[0]!["heldId"]}/dismiss", """{"reason":"sent twice"}""");
        await herd.Post("/facts", """[{"sourceId":"n","kind":"animal","animal":"nobody","parity":2},{"sourceId":"n-c","kind":"calving","animal":"nobody","date":"2026-05-01"}]""");
        await host.Set("2026-10-05T13:20:00Z");
        await herd.Put("/programme", """{"inForceFrom":"2026-10-01","test":{"targetDaysPostService":33,"cutOffs":{"openBelow":0.21,"pregnantAbove":0.3,"unit":"S-N"}},"laboratory":{"kind":"on-farm","minutes":25},"recording":"recorded"}""");
        await herd.Post("/programme/approvals", """{"version":2}""");
        await host.Set("2026-10-05T14:00:00Z");
        return herd;
    }

    private static JsonObject Moved(JsonObject fact, string date)
    {
        var moved = fact.DeepClone().AsObject();
        moved["date"] = date;
        return moved;
    }

    private static async Task Post(HerdClient herd, string path, IEnumerable<JsonObject> items)
    {
        var answer = await herd.Post(path, new JsonArray([.. items.Select(i => i.DeepClone())]).ToJsonString());
        Assert.Equal(HttpStatusCode.OK, answer.Status);
    }

    private static async Task<IReadOnlyList<string>> Everything(HerdClient herd, string more)
    {
        var answers = new List<string>
        {
            (await herd.Get($"/bleed-list?from=2026-10-05&to=2026-11-01&detail=all{more}")).Text,
            (await herd.Get($"/work-calendar?from=2026-09-01&to=2026-12-01&include=cancelled{more}")).Text,
        };
        foreach (var animal in Enumerable.Range(1, Animals).Select(i => (100 + i).ToString(CultureInfo.InvariantCulture)).Append("nobody"))
        {
            answers.Add((await herd.Get($"/animals/{animal}/test-window?on=2026-10-05{more}")).Text);
            answers.Add((await herd.Get($"/animals/{animal}/timeline{(more.Length == 0 ? "" : "?" + more[1..])}")).Text);
        }

        return answers;
    }
}

internal static class ClockOfHost
{
    public static async Task Set(this ApiHostFixture host, string now)
    {
        using var client = host.CreateClient();
        using var body = new StringContent($$"""{"now":"{{now}}"}""", System.Text.Encoding.UTF8, "application/json");
        using var answer = await client.PutAsync("/testing/clock", body);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
    }
}
