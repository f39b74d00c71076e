using System.Globalization;
using System.Net;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Rounds;

/// <summary>A herd with cows that are 28 days post-service on Thursday 8 October, and what is done to its rounds.</summary>
internal static class RoundHerd
{
    public const string Thursday = "2026-10-08";

    /// <summary>Cows 1, 2, 3 …, in pens of four.</summary>
    public static async Task<HerdClient> Create(ApiHostFixture host, int cows, string served = "2026-09-10")
    {
        var herd = await HerdClient.Create(host);
        var facts = Enumerable.Range(1, cows).Select(i => string.Create(CultureInfo.InvariantCulture, $$"""
            {"sourceId":"a-{{i}}","kind":"animal","animal":"{{i}}","parity":1,"pen":"{{(i + 3) / 4}}","identifiers":[{"scheme":"us.bovine","id":"84000{{i:0000}}"}]},
            {"sourceId":"c-{{i}}","kind":"calving","animal":"{{i}}","date":"2026-06-01"},
            {"sourceId":"s-{{i}}","kind":"insemination","animal":"{{i}}","date":"{{served}}"}
            """));
        await herd.Accept($"[{string.Join(',', facts)}]");
        return herd;
    }

    /// <summary>Cows that are 31 days post-service today, and a round of today in which all of them were drawn and dispatched.</summary>
    public static async Task<HerdClient> Drawn(ApiHostFixture host, int cows)
    {
        var herd = await Create(host, cows, "2026-09-04");
        await herd.Freeze("""{"date":"2026-10-05"}""");
        for (var i = 1; i <= cows; i++)
        {
            await herd.Draw(string.Create(CultureInfo.InvariantCulture, $"R1-{i:000}"));
        }

        await herd.Send("R1");
        return herd;
    }

    public static async Task<string> Freeze(this HerdClient herd, string body = $$"""{"date":"{{Thursday}}"}""")
    {
        var answer = await herd.Post("/sampling-rounds", body);
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        return (string)answer["round"]!;
    }

    public static Task<Answer> Mark(this HerdClient herd, string tube, string body) =>
        herd.Put($"/sampling-rounds/{tube[..tube.IndexOf('-', StringComparison.Ordinal)]}/tubes/{tube}", body);

    public static async Task Draw(this HerdClient herd, string tube)
    {
        var answer = await herd.Mark(tube, """{"state":"drawn","date":"2026-10-05","time":"06:41","by":"Ana"}""");
        Assert.True(answer.Status == HttpStatusCode.OK, answer.Text);
    }

    public static async Task Send(this HerdClient herd, string round) =>
        Assert.Equal(HttpStatusCode.Created, (await herd.Post($"/sampling-rounds/{round}/dispatch", "{}")).Status);

    public static async Task<string[]> Samples(this HerdClient herd) =>
        [.. (await herd.Get("/facts?limit=1000"))["facts"].AsArray().Where(f => (string?)f!["kind"] == "sample").Select(f => $"{f!["animal"]} {f["tube"]}")];
}
