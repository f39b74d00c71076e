using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Facts;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

public sealed class FactTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    // Every kind once, with everything it may carry.
    private const string EveryKind = """
        [
         {"sourceId":"a-1","kind":"animal","animal":"1042","date":"2026-01-01","born":"2022-03-01","breed":"Holstein","parity":1,"pen":"4","identifiers":[{"scheme":"us.bovine","id":"840003123456789"}]},
         {"sourceId":"c-1","kind":"calving","animal":"1042","date":"2026-07-01","time":"23:59"},
         {"sourceId":"s-1","kind":"insemination","animal":"1042","date":"2026-09-10","time":"08:00","sire":"B77","sireBreed":"Angus","technician":"T"},
         {"sourceId":"s-2","kind":"natural-service","animal":"1043","date":"2026-09-12","sire":"B","sireBreed":"Jersey"},
         {"sourceId":"s-3","kind":"embryo-transfer","animal":"1044","date":"2026-09-17","embryoAgeDays":7,"embryoBreed":"Jersey","technician":"T","sire":"B","sireBreed":"Jersey"},
         {"sourceId":"x-1","kind":"exposure","animal":"1045","date":"2026-09-01","until":"2026-10-05","sire":"B","sireBreed":"Angus"},
         {"sourceId":"h-1","kind":"oestrus","animal":"1043","date":"2026-10-01"},
         {"sourceId":"l-1","kind":"loss","animal":"1044","date":"2026-10-01","examined":true},
         {"sourceId":"t-1","kind":"treatment","animal":"1042","date":"2026-10-05","time":"07:10","agent":"gnrh"},
         {"sourceId":"e-1","kind":"examination","animal":"1045","date":"2026-10-05","method":"ultrasound","outcome":"open","corpusLuteum":true,"examiner":"V"},
         {"sourceId":"d-1","kind":"do-not-breed","animal":"1046","date":"2026-10-01","reason":"lame"},
         {"sourceId":"d-2","kind":"breed-again","animal":"1046","date":"2026-10-05"},
         {"sourceId":"y-1","kind":"dry-off","animal":"1047","date":"2026-10-01"},
         {"sourceId":"r-1","kind":"arrival","animal":"1048","date":"2026-10-01"},
         {"sourceId":"g-1","kind":"departure","animal":"1049","date":"2026-10-02","reason":"sold"},
         {"sourceId":"b-1","kind":"sample","animal":"1042","date":"2026-10-06","time":"06:30","specimen":"serum","tube":"R12-003"},
         {"sourceId":"t-2","kind":"treatment","animal":"1050","date":"2026-10-06","agent":"insert-in","notDone":true},
         {"sourceId":"k-1","kind":"confirm","animal":"1051","confirms":{"source":"herd-app","sourceId":"c-9"},"reason":"calf seen"}
        ]
        """;

    [Fact]
    public async Task Post_EveryKind_IsStoredAndListedAsSent()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept(EveryKind);
        var listed = (await herd.Get("/facts"))["facts"].AsArray();
        var sent = JsonNode.Parse(EveryKind)!.AsArray();
        Assert.Equal(sent.Count, listed.Count);
        foreach (var (fact, answer) in sent.Zip(listed))
        {
            // What was sent comes back the same; the service adds its own.
            foreach (var (name, value) in fact!.AsObject())
            {
                Assert.True(JsonNode.DeepEquals(value, answer![name]), $"{fact.ToJsonString()} came back as {answer.ToJsonString()}");
            }

            Assert.Equal(["factId", "recordedAt", "source"], answer!.AsObject().Select(p => p.Key).Except(fact.AsObject().Select(p => p.Key)).Order());
        }
    }

    [Theory]
    [InlineData("""{"kind":"calving","animal":"1","date":"2026-02-30"}""", "date", "2026-02-30")]
    [InlineData("""{"kind":"calving","animal":"1","date":"2026-10-07"}""", "date", "2026-10-07")]
    [InlineData("""{"kind":"calving","animal":"1","date":20261001}""", "date", "20261001")]
    [InlineData("""{"kind":"calving","animal":"1","date":"-0001-01-01"}""", "date", "-0001-01-01")]
    [InlineData("""{"kind":"calving","animal":"1","date":null}""", "date", null)]
    [InlineData("""{"kind":"calving","animal":"1"}""", "date", null)]
    [InlineData("""{"kind":"calving","animal":"1","date":"2026-10-01","time":"24:00"}""", "time", "24:00")]
    [InlineData("""{"kind":"calving","animal":"1","date":"2026-10-01","parity":2}""", "parity", "2")]
    [InlineData("""{"kind":"calving","animal":"1","date":"2026-10-01","recordedAt":"2026-10-01T00:00:00Z"}""", "recordedAt", "2026-10-01T00:00:00Z")]
    [InlineData("""{"kind":"calving","animal":1,"date":"2026-10-01"}""", "animal", "1")]
    [InlineData("""{"kind":"calving","animal":"  ","date":"2026-10-01"}""", "animal", "  ")]
    [InlineData("""{"kind":"calving","animal":"1042 ","date":"2026-10-01"}""", "animal", "1042 ")]
    [InlineData("""{"kind":"calving","animal":"1\u0000","date":"2026-10-01"}""", "animal", "1\0")]
    [InlineData("""{"kind":"calving","animal":"1","date":"2026-10-01","date":"2026-10-02"}""", "date", "2026-10-02")]
    [InlineData("""{"kind":"Calving","animal":"1","date":"2026-10-01"}""", "kind", "Calving")]
    [InlineData("""{"kind":"result","animal":"1","date":"2026-10-01"}""", "kind", "result")]
    [InlineData("""{"kind":3,"animal":"1","date":"2026-10-01"}""", "kind", "3")]
    [InlineData("""{"animal":"1","date":"2026-10-01"}""", "kind", null)]
    [InlineData("""{"kind":"animal","animal":"1","parity":31}""", "parity", "31")]
    [InlineData("""{"kind":"animal","animal":"1","parity":1.5}""", "parity", "1.5")]
    [InlineData("""{"kind":"animal","animal":"1","parity":99999999999999999999}""", "parity", "99999999999999999999")]
    [InlineData("""{"kind":"animal","animal":"1","born":"2026-10-07"}""", "born", "2026-10-07")]
    [InlineData("""{"kind":"animal","animal":"1","identifiers":[{"scheme":"x"}]}""", "identifiers/0/id", null)]
    [InlineData("""{"kind":"animal","animal":"1","identifiers":[7]}""", "identifiers/0", "7")]
    [InlineData("""{"kind":"embryo-transfer","animal":"1","date":"2026-10-01","embryoAgeDays":0}""", "embryoAgeDays", "0")]
    [InlineData("""{"kind":"embryo-transfer","animal":"1","date":"2026-10-01","embryoAgeDays":15}""", "embryoAgeDays", "15")]
    [InlineData("""{"kind":"exposure","animal":"1","date":"2026-09-02","until":"2026-09-01"}""", "until", "2026-09-01")]
    [InlineData("""{"kind":"exposure","animal":"1","date":"2026-09-02","until":"2026-10-07"}""", "until", "2026-10-07")]
    [InlineData("""{"kind":"treatment","animal":"1","date":"2026-10-01","agent":"PGF"}""", "agent", "PGF")]
    [InlineData("""{"kind":"treatment","animal":"1","date":"2026-10-01"}""", "agent", null)]
    [InlineData("""{"kind":"treatment","animal":"1","date":"2026-10-01","agent":"pgf","notDone":"true"}""", "notDone", "true")]
    [InlineData("""{"kind":"examination","animal":"1","date":"2026-10-01","method":"blood","outcome":"open"}""", "method", "blood")]
    [InlineData("""{"kind":"sample","animal":"1","date":"2026-10-01","specimen":"urine"}""", "specimen", "urine")]
    [InlineData("""{"kind":"confirm","animal":"1"}""", "confirms", null)]
    [InlineData("""{"kind":"confirm","animal":"1","confirms":{"source":"x","sourceId":"y","z":1}}""", "confirms/z", "1")]
    [InlineData("\"text\"", null, "text")]
    public async Task Post_OneBadItem_NamesFieldValueAndAllowed_AndStoresTheOthers(string item, string? field, string? value)
    {
        var herd = await HerdClient.Create(host);
        var bad = item[0] == '{' ? item.Insert(1, "\"sourceId\":\"bad\",") : item;
        var answer = await herd.Post("/facts", $$"""[{"sourceId":"good","kind":"oestrus","animal":"2","date":"2026-10-01"},{{bad}}]""");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal("accepted", (string?)answer.Results[0]!["status"]);
        var rejected = answer.Results[1]!;
        Assert.Equal("rejected", (string?)rejected["status"]);
        var problem = rejected["problem"]!;
        Assert.Equal(field, (string?)problem["field"]);
        Assert.Equal(field is null ? "/1" : "/1/" + field, (string?)problem["pointer"]);
        Assert.Equal(value, problem["value"]?.ToString());
        Assert.False(string.IsNullOrEmpty((string?)problem["allowed"]));
        Assert.StartsWith("/problems/", (string?)problem["type"], StringComparison.Ordinal);
        Assert.False(string.IsNullOrEmpty((string?)problem["detail"]));
        Assert.Single((await herd.Get("/facts"))["facts"].AsArray());
    }

    [Fact]
    public async Task Post_SeveralThingsWrong_AreAllNamed()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/facts", """[{"kind":"insemination","animal":"","date":"x","bull":"B"}]""");
        Assert.Equal(["sourceId", "animal", "date", "bull"], answer.Results[0]!["problems"]!.AsArray().Select(p => (string?)p!["field"]));
    }

    [Fact]
    public async Task Post_TomorrowIsLetIn_TheDayAfterIsNot()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/facts", """
            [{"sourceId":"1","kind":"oestrus","animal":"1","date":"2026-10-06"},{"sourceId":"2","kind":"oestrus","animal":"1","date":"2026-10-07"}]
            """);
        Assert.Equal(["accepted", "rejected"], answer.Results.Select(r => (string?)r!["status"]));
        Assert.Equal("/problems/in-the-future", (string?)answer.Results[1]!["problem"]!["type"]);
    }

    [Fact]
    public async Task Post_TodayIsTheHerdsOwn()
    {
        // At noon UTC it is already Tuesday, 6 October, in Kiritimati: Wednesday is its tomorrow.
        var herd = await HerdClient.Create(host, "Pacific/Kiritimati");
        await herd.Accept("""[{"sourceId":"1","kind":"oestrus","animal":"1","date":"2026-10-07"}]""");
    }

    [Fact]
    public async Task Post_SameAgain_IsADuplicate_OtherContentReplaces()
    {
        var herd = await HerdClient.Create(host);
        const string First = """{"sourceId":"1","kind":"calving","animal":"1","date":"2026-07-01"}""";
        const string Other = """{"sourceId":"1","kind":"calving","animal":"1","date":"2026-07-02"}""";
        var answer = await herd.Post("/facts", $"[{First},{First},{Other},{Other}]");
        Assert.Equal(["accepted", "duplicate", "replaced", "duplicate"], answer.Results.Select(r => (string?)r!["status"]));
        var facts = (await herd.Get("/facts"))["facts"].AsArray();
        Assert.Equal("2026-07-02", (string?)Assert.Single(facts)!["date"]);
    }

    [Fact]
    public async Task Withdraw_ThenAgain_ThenPostAgain()
    {
        var herd = await HerdClient.Create(host);
        const string Fact = """[{"sourceId":"1","kind":"calving","animal":"1","date":"2026-07-01"}]""";
        var id = (await herd.Accept(Fact))[0];
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Post($"/facts/{id}/withdraw", "{}")).Status);
        Assert.Equal(HttpStatusCode.OK, (await herd.Post($"/facts/{id}/withdraw", """{"reason":"wrong cow"}""")).Status);
        Assert.Equal(HttpStatusCode.Conflict, (await herd.Post($"/facts/{id}/withdraw", """{"reason":"wrong cow"}""")).Status);
        Assert.Empty((await herd.Get("/facts"))["facts"].AsArray());
        await herd.Accept(Fact);
    }

    [Theory]
    [InlineData("f_0000000000000")]
    [InlineData("nonsense")]
    public async Task Withdraw_UnknownFact_Is404(string id)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post($"/facts/{id}/withdraw", """{"reason":"wrong cow"}""");
        Assert.Equal(HttpStatusCode.NotFound, answer.Status);
        Assert.Equal("/problems/fact-not-found", (string?)answer["type"]);
    }

    [Fact]
    public async Task List_PageByPage_GivesEveryFactOnce()
    {
        var herd = await HerdClient.Create(host);
        var facts = Enumerable.Range(1, 7).Select(i => $$"""{"sourceId":"{{i}}","kind":"oestrus","animal":"{{i % 2}}","date":"2026-09-0{{i}}"}""");
        await herd.Accept($"[{string.Join(',', facts)}]");
        var seen = new List<string?>();
        string? next = null;
        do
        {
            var page = await herd.Get($"/facts?limit=3{(next is null ? "" : "&after=" + Uri.EscapeDataString(next))}");
            seen.AddRange(page["facts"].AsArray().Select(f => (string?)f!["sourceId"]));
            next = (string?)page.Json!["next"];
        }
        while (next is not null);
        Assert.Equal(["1", "2", "3", "4", "5", "6", "7"], seen);
        Assert.Equal(4, (await herd.Get("/facts?animal=1"))["facts"].AsArray().Count);
        Assert.Empty((await herd.Get("/facts?animal=none"))["facts"].AsArray());
    }

    [Theory]
    [InlineData("?limit=0", "limit")]
    [InlineData("?limit=1001", "limit")]
    [InlineData("?limit=ten", "limit")]
    [InlineData("?limit=1&limit=2", "limit")]
    [InlineData("?after=zzz", "after")]
    [InlineData("?animl=1042", "animl")]
    public async Task List_BadQuery_NamesTheParameter(string query, string parameter)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Get("/facts" + query);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal(parameter, (string?)answer["errors"][0]!["field"]);
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("null")]
    [InlineData("[{\"sourceId\":\"1\"")]
    [InlineData("[{\"sourceId\":\"1\",\"kind\":\"oestrus\",\"animal\":\"\\ud800\",\"date\":\"2026-10-01\"}]")]
    [InlineData("")]
    public async Task Post_BatchNotUnderstood_StoresNothing(string body)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/facts", body);
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("application/problem+json", answer.MediaType);
        Assert.Empty((await herd.Get("/facts"))["facts"].AsArray());
    }

    [Fact]
    public async Task Post_MoreItemsThanAllowed_StoresNothing()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/facts", $"[{string.Join(',', Enumerable.Repeat("1", 10_001))}]");
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("/problems/bad-batch", (string?)answer["type"]);
    }

    [Fact]
    public async Task Post_WhatRaisesAConflict_IsAcceptedWithAWarning()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/facts", """
            [{"sourceId":"1","kind":"insemination","animal":"1","date":"2026-08-01"},
             {"sourceId":"2","kind":"examination","animal":"1","date":"2026-09-05","method":"ultrasound","outcome":"pregnant"},
             {"sourceId":"3","kind":"insemination","animal":"1","date":"2026-10-01"}]
            """);
        Assert.Equal("accepted", (string?)answer.Results[2]!["status"]);
        Assert.Equal("T7 b", (string?)answer.Results[2]!["warnings"]![0]!["rule"]);
        Assert.Empty(answer.Results[0]!["warnings"]!.AsArray());
    }

    [Theory]
    [InlineData(FactExamples.Batch, "application/json")]
    [InlineData(FactExamples.Csv, "text/csv")]
    public async Task Post_TheDocumentsExamples_AreAccepted(string body, string mediaType)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/facts", body, mediaType);
        Assert.All(answer.Results, r => Assert.Equal("accepted", (string?)r!["status"]));
    }
}
