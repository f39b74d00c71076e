using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Changes;

/// <summary>Whoever follows the feed ends with what the service has.</summary>
public sealed class ChangeFeedTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    [Fact]
    public async Task Follower_DuringParallelWrites_EndsWithTheServersState()
    {
        var herd = await HerdClient.Create(host);
        var writing = Enumerable.Range(0, 8).Select(writer => Task.Run(() => Write(herd, writer))).ToArray();
        var follower = new Follower(herd);
        do
        {
            await follower.Follow();
        }
        while (!Task.WhenAll(writing).IsCompleted);
        await Task.WhenAll(writing);
        await follower.Follow();

        var facts = await All(herd, "/facts?limit=1000", "facts");
        Assert.Equal(facts.Select(f => f.ToJsonString()).Order(), follower.Facts.Values.Select(f => f.ToJsonString()).Order());
        Assert.Equal((await All(herd, "/held-results", "held")).Select(h => (string)h["heldId"]!).Order(), follower.Held.Order());
        Assert.NotEmpty(follower.Held);
        foreach (var animal in facts.Select(f => (string)f["animal"]!).Distinct())
        {
            var timeline = await herd.Get($"/animals/{animal}/timeline");
            var seen = follower.Animals[animal];
            Assert.Equal((string?)timeline["status"], (string?)seen["status"]);
            Assert.Equal(timeline["plan"].ToJsonString(), seen["plan"]!.ToJsonString());
            Assert.Equal(
                timeline["results"].AsArray().Select(r => $"{r!["fact"]} {r["decides"]}"),
                seen["results"]!.AsArray().Select(r => $"{r!["factId"]} {r["decides"]}"));
        }
    }

    [Fact]
    public async Task EveryKind_IsTold_InOrder()
    {
        var herd = await HerdClient.Create(host);
        await herd.Put("/programme", "{}");
        await herd.Post("/programme/approvals", """{"version":1}""");
        var id = (await herd.Accept("""[{"sourceId":"s","kind":"insemination","animal":"1","date":"2026-08-20"}]"""))[0];
        await herd.Post("/test-results", """[{"sourceId":"r","animal":"2","sampled":"2026-10-01","outcome":"open"}]""");
        await herd.Post($"/facts/{id}/withdraw", """{"reason":"wrong cow"}""");
        await herd.Accept("""[{"sourceId":"s2","kind":"insemination","animal":"2","date":"2026-08-20"}]""");
        var changes = await All(herd, "/changes", "changes");
        Assert.Equal(["herd", "programme", "approval", "fact", "held", "withdrawal", "fact", "fact", "held-end"], changes.Select(c => (string)c["kind"]!));
        Assert.Equal(("wrong cow", id), ((string?)changes[5]["reason"], (string?)changes[5]["factId"]));
        Assert.Equal(("released", (string?)changes[7]["fact"]!["factId"]), ((string?)changes[8]["reason"], (string?)changes[8]["factId"]));
        Assert.Equal((1, "unknown-animal"), ((int)changes[2]["number"]!, (string?)changes[4]["reason"]));
    }

    [Fact]
    public async Task AtTheEnd_NextStays_AndAnyCursorReadsOnFromThere()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept("""[{"sourceId":"1","kind":"oestrus","animal":"1","date":"2026-10-01"},{"sourceId":"2","kind":"oestrus","animal":"2","date":"2026-10-01"}]""");
        var all = await herd.Get("/changes");
        var end = await herd.Get($"/changes?after={all["next"]}");
        Assert.Empty(end["changes"].AsArray());
        Assert.Equal((string?)all["next"], (string?)end["next"]);
        var second = await herd.Get($"/changes?after={all["changes"][1]!["cursor"]}");
        Assert.Equal("2", (string?)Assert.Single(second["changes"].AsArray())!["animal"]);
        Assert.Equal("2", (string?)Assert.Single(second["animals"].AsArray())!["animal"]);
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Get("/changes?after=nonsense")).Status);
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Get("/changes?limit=0")).Status);
    }

    private static async Task Write(HerdClient herd, int writer)
    {
        for (var i = 0; i < 20; i++)
        {
            var animal = $"{(writer + i) % 6}";
            var id = $"{(writer * 3) + (i % 9)}";
            var answer = (i % 4) switch
            {
                0 => await herd.Post("/facts", $$"""[{"sourceId":"s{{id}}","kind":"insemination","animal":"{{animal}}","date":"2026-08-{{1 + i:00}}"}]"""),
                1 => await herd.Post("/test-results", $$"""[{"sourceId":"r{{id}}","animal":"{{animal}}","sampled":"2026-10-0{{1 + (i % 4)}}","outcome":"{{(i % 3 == 0 ? "open" : "pregnant")}}"}]"""),
                2 => await herd.Post("/test-results", $$"""[{"sourceId":"h{{id}}","animal":"nobody-{{animal}}","sampled":"2026-10-01","outcome":"open"}]"""),
                _ => await Withdraw(herd, i),
            };
            Assert.True(answer.Status is HttpStatusCode.OK or HttpStatusCode.Conflict, answer.Text);
        }
    }

    private static async Task<Answer> Withdraw(HerdClient herd, int i)
    {
        var facts = (await herd.Get("/facts?limit=1000"))["facts"].AsArray();
        return facts.Count == 0
            ? await herd.Get("/facts")
            : await herd.Post($"/facts/{facts[i * 7 % facts.Count]!["factId"]}/withdraw", """{"reason":"test"}""");
    }

    private static async Task<IReadOnlyList<JsonNode>> All(HerdClient herd, string path, string list)
    {
        var answer = await herd.Get(path);
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        return [.. answer[list].AsArray().Select(item => item!)];
    }

    private sealed class Follower(HerdClient herd)
    {
        private string _after = "";

        public Dictionary<string, JsonNode> Facts { get; } = [];

        public HashSet<string> Held { get; } = [];

        public Dictionary<string, JsonNode> Animals { get; } = [];

        public async Task Follow()
        {
            while (true)
            {
                var page = await herd.Get($"/changes?limit=7{_after}");
                Assert.Equal(HttpStatusCode.OK, page.Status);
                if (page["changes"].AsArray().Count == 0)
                {
                    return;
                }

                foreach (var change in page["changes"].AsArray())
                {
                    Take(change!);
                }

                foreach (var animal in page["animals"].AsArray())
                {
                    Animals[(string)animal!["animal"]!] = animal;
                }

                _after = $"&after={page["next"]}";
            }
        }

        private void Take(JsonNode change)
        {
            switch ((string?)change["kind"])
            {
                case "fact":
                    Facts.Add((string)change["fact"]!["factId"]!, change["fact"]!);
                    break;
                case "withdrawal":
                    Assert.True(Facts.Remove((string)change["factId"]!));
                    break;
                case "held":
                    Assert.True(Held.Add((string)change["heldId"]!));
                    break;
                case "held-end":
                    Assert.True(Held.Remove((string)change["heldId"]!));
                    break;
            }
        }
    }
}
