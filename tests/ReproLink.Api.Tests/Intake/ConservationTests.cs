using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using ReproLink.Api.Tests.Rounds;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Intake;

/// <summary>Received = accepted + duplicate + held + rejected, and every line is found again, whatever the file is like.</summary>
public sealed class ConservationTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private const int Cows = 8;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(5)]
    [InlineData(6)]
    public async Task EveryLineOfADirtyFile_IsAnsweredOnceAndFoundAgain(int seed)
    {
        var herd = await RoundHerd.Drawn(host, Cows);
        Assert.True((await herd.Put("/result-mappings/valley", MappingTests.Mapping)).Status == System.Net.HttpStatusCode.OK);
        var random = new Random(seed);
        var sent = 0;
        for (var round = 0; round < 4; round++)
        {
            var lines = Enumerable.Range(0, random.Next(1, 40)).Select(i => Dirty(random, i)).ToArray();
            var file = "Lab no;Cow;Tube;Drawn;Result;S-N\n" + string.Join('\n', lines) + "\n";
            var preview = await herd.Post("/test-results/preview?sender=valley", file, "text/csv");
            var answer = await herd.Post($"/test-results?sender=valley&file=f{round}.csv", file, "text/csv");
            Assert.True(answer.Status == System.Net.HttpStatusCode.OK, answer.Text);
            Assert.Equal(lines.Length, answer.Results.Count);
            Assert.Equal(preview["lines"].AsArray().Select(l => (string?)l!["result"]!["status"]), answer.Results.Select(r => (string?)r!["status"]));
            await AssertKept(herd, round + 1, lines, answer.Results);
            sent += lines.Length;
        }

        await AssertAddsUp(herd, sent);
    }

    private static async Task AssertKept(HerdClient herd, int batch, string[] lines, JsonArray answers)
    {
        var kept = (await herd.Get($"/received?batch={batch}&limit=1000"))["lines"].AsArray();
        Assert.Equal(lines, kept.Select(l => (string?)l!["text"]));
        Assert.Equal(answers.Select(r => (string?)r!["status"]), kept.Select(l => (string?)l!["decision"]));
        foreach (var (line, answer) in kept.Zip(answers))
        {
            Assert.Equal((string?)answer!["factId"], (string?)line!["factId"]);
            Assert.Equal((string?)answer["heldId"], (string?)line["heldId"]);
            Assert.Equal((string?)answer["status"] is "held" or "rejected", line["why"] is not null);
            if ((string?)answer["factId"] is { } fact)
            {
                var behind = (await herd.Get($"/received?fact={fact}&limit=1000"))["lines"].AsArray();
                Assert.Contains(behind, b => (int)b!["batch"]! == batch && (int)b["item"]! == (int)line["item"]!);
            }

            if ((string?)answer["heldId"] is { } held)
            {
                Assert.Equal(System.Net.HttpStatusCode.OK, (await herd.Get($"/held-results/{held}")).Status);
            }
        }
    }

    private static async Task AssertAddsUp(HerdClient herd, int sent)
    {
        var found = 0;
        foreach (var decision in new[] { "accepted", "replaced", "duplicate", "held", "rejected" })
        {
            string? after = null;
            do
            {
                var page = await herd.Get($"/received?decision={decision}&limit=7{(after is null ? "" : $"&after={after}")}");
                found += page["lines"].AsArray().Count;
                after = (string?)page.Json!["next"];
            }
            while (after is not null);
        }

        Assert.Equal(sent, found);
    }

    // Every kind of dirt there is: wrong cow, wrong tube, wrong words, wrong dates, torn lines, quotes, blanks, repetition.
    private static string Dirty(Random random, int i)
    {
        var cow = random.Next(1, Cows + 3);
        var (animal, tube) = (cow.ToString(CultureInfo.InvariantCulture), $"R1-{random.Next(3) switch { 0 => random.Next(1, Cows + 3), _ => cow }:000}");
        var cells = new List<string>
        {
            random.Next(4) == 0 ? $"{random.Next(5)}" : $"{i}",
            random.Next(6) switch { 0 => "", 1 => $" 00{animal}", 2 => $"84000 000{animal}", _ => animal },
            random.Next(5) switch { 0 => "", 1 => tube.ToLowerInvariant(), 2 => "X99", _ => tube },
            random.Next(8) switch { 0 => "", 1 => "31/02/2026", 2 => "2026-10-05", 3 => "04/10/2026", 4 => "09/10/2026", _ => "05/10/2026" },
            random.Next(8) switch { 0 => "", 1 => "maybe", 2 => "preg", 3 => "DOUBTFUL", 4 => "\"not preg\"", 5 => "invalid", _ => "NOT PREG" },
            random.Next(6) switch { 0 => "0,12", 1 => "<0,1", 2 => "1e999", 3 => "\"a;\"\"b\"", _ => "" },
        };
        var line = new StringBuilder(string.Join(';', cells));
        return random.Next(12) switch
        {
            0 => line.Append(";more").ToString(),
            1 => line.ToString()[..Math.Max(1, line.ToString().IndexOf('"', StringComparison.Ordinal) is var q && q > 0 ? q : line.Length / 2)],
            2 => "ü" + line,
            _ => line.ToString(),
        };
    }
}
