using System.Net;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Laws;

/// <summary>Laws 4, 5 and 6 over HTTP and a real file, on everything that is answered.</summary>
public sealed class CalendarLawTests
{
    private const int Animals = 25;

    private const string Programme = """
        {"inForceFrom":"2025-01-01","resynchronisation":{"protocolHeifer":"cosynch-5d-insert-dairy-heifer"},
         "firstService":{"voluntaryWaitingPeriodDays":60,"protocol":"double-ovsynch-56","startDays":["friday"]}}
        """;

    private static async Task<HerdClient> Herd(ApiHostFixture host)
    {
        var herd = await HerdClient.Create(host);
        await herd.Put("/programme", Programme);
        await herd.Post("/programme/approvals", """{"version":1}""");
        return herd;
    }

    private static async Task Post(HerdClient herd, string path, IEnumerable<JsonObject> items)
    {
        var answer = await herd.Post(path, new JsonArray([.. items.Select(i => i.DeepClone())]).ToJsonString());
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.All(answer.Results, r => Assert.Contains((string?)r!["status"], (string[])["accepted", "duplicate"]));
    }

    private static async Task<IReadOnlyList<string>> Everything(HerdClient herd, string more = "")
    {
        var answers = new List<string>
        {
            (await herd.Get($"/bleed-list?from=2026-10-05&to=2026-11-01&detail=all{more}")).Text,
            (await herd.Get($"/work-calendar?from=2026-09-01&to=2026-12-01&include=cancelled{more}")).Text,
        };
        for (var i = 1; i <= Animals; i++)
        {
            answers.Add((await herd.Get($"/animals/{100 + i}/test-window?on=2026-10-05{more}")).Text);
        }

        return answers;
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public async Task Any_order_any_batches_and_repetition_give_the_same_calendar_to_the_letter(int seed)
    {
        await using var host = new ApiHostFixture();
        var histories = new RandomHistories(seed);
        var facts = histories.Herd(Animals);
        var results = histories.Results(Animals, 20);
        var straight = await Herd(host);
        await Post(straight, "/facts", facts);
        await Post(straight, "/test-results", results);
        var mixed = await Herd(host);
        histories.Shuffle(facts);
        // A result for an animal nobody knows yet would wait; she is made known first.
        await Post(mixed, "/facts", facts.Where(f => (string?)f["kind"] == "animal"));
        await Post(mixed, "/test-results", results);
        foreach (var batch in facts.Concat(facts.Take(30)).Chunk(17))
        {
            await Post(mixed, "/facts", batch);
        }

        histories.Shuffle(results);
        await Post(mixed, "/test-results", results);
        Assert.Equal(await Everything(straight), await Everything(mixed));
    }

    [Theory]
    [InlineData(4)]
    [InlineData(5)]
    public async Task A_withdrawn_fact_equals_one_never_had_and_the_past_stays_as_it_was_known(int seed)
    {
        await using var host = new ApiHostFixture();
        var histories = new RandomHistories(seed);
        var facts = histories.Herd(Animals);
        var herd = await Herd(host);
        await Post(herd, "/facts", facts);
        var before = await Everything(herd);
        await herd.Put("//testing/clock", """{"now":"2026-10-05T13:00:00Z"}""");
        var extra = new RandomHistories(seed + 100).Herd(Animals).Where(f => (string?)f["kind"] is not "animal").Select((f, i) =>
        {
            f["sourceId"] = $"extra-{i}";
            return f;
        }).ToList();
        var posted = await herd.Post("/facts", new JsonArray([.. extra.Select(f => f.DeepClone())]).ToJsonString());
        var with = await Everything(herd);
        Assert.NotEqual(before, with);
        Assert.Equal(before, await Everything(herd, $"&knownAt={ApiHostFixture.Start}"));
        foreach (var id in posted.Results.Select(r => (string)r!["factId"]!))
        {
            Assert.Equal(HttpStatusCode.OK, (await herd.Post($"/facts/{id}/withdraw", """{"reason":"never happened"}""")).Status);
        }

        Assert.Equal(before.Select(Timeless), (await Everything(herd)).Select(Timeless));
    }

    // knownAt is the moment of asking: an hour later it is another, and steps of the day may have passed.
    private static string Timeless(string answer) => answer.Replace("2026-10-05T13:00:00Z", ApiHostFixture.Start, StringComparison.Ordinal);
}
