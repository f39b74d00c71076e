using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Intake;

/// <summary>
/// The real program, killed without warning while results come in. Every answered line is on disk once; a batch that was not
/// answered is there whole or not at all. Five kills; a hundred with REPROLINK_LONG=1.
/// </summary>
public sealed class CrashTests : IDisposable
{
    private const int LinesABatch = 5;
    private readonly string _folder = Directory.CreateTempSubdirectory("reprolink-crash-").FullName;

    private static int Kills => Environment.GetEnvironmentVariable("REPROLINK_LONG") == "1" ? 100 : 5;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Kill_DuringIntake_LosesNothingThatWasAnsweredAndHalvesNothing()
    {
        var database = Path.Combine(_folder, "herds.db");
        var answered = new ConcurrentBag<int>();
        var random = new Random(77);
        var next = 0;
        for (var kill = 0; kill < Kills; kill++)
        {
            next = await RunAndKill(database, next, random.Next(1, 60), answered);
            await AssertWhole(database, answered, next);
        }

        Assert.NotEmpty(answered);
    }

    private static async Task<int> RunAndKill(string database, int first, int answersBeforeTheKill, ConcurrentBag<int> answered)
    {
        using var server = Process.Start(new ProcessStartInfo("dotnet",
            [typeof(Program).Assembly.Location, "--urls", "http://127.0.0.1:0", "--Database", database, "--environment", "Testing", "--Clock", "2026-10-05T12:00:00Z", "--Logging:LogLevel:Default=Information"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        try
        {
            using var client = new HttpClient { BaseAddress = await Address(server) };
            using var made = await client.PutAsJsonAsync(new Uri("/locations/farm/crash", UriKind.Relative), new { name = "Crash", timeZone = "America/Chicago" });
            made.EnsureSuccessStatusCode();
            using var cards = await client.PostAsJsonAsync(new Uri("/locations/farm/crash/facts", UriKind.Relative),
                Enumerable.Range(0, 3).Select(i => new { sourceId = $"card-{i}", source = "herd", kind = "animal", animal = $"{i}" }));
            cards.EnsureSuccessStatusCode();
            var (batch, seen) = (first - 1, 0);
            await Task.WhenAll(Enumerable.Range(0, 4).Select(async _ =>
            {
                try
                {
                    while (true)
                    {
                        var mine = Interlocked.Increment(ref batch);
                        using var body = new StringContent(Batch(mine), Encoding.UTF8, "application/json");
                        using var answer = await client.PostAsync(new Uri("/locations/farm/crash/test-results", UriKind.Relative), body);
                        answer.EnsureSuccessStatusCode();
                        answered.Add(mine);
                        if (Interlocked.Increment(ref seen) == answersBeforeTheKill)
                        {
                            server.Kill();
                        }
                    }
                }
                catch (HttpRequestException)
                {
                    // It was killed.
                }
            }));
            return batch + 1;
        }
        finally
        {
            if (!server.HasExited)
            {
                server.Kill();
            }

            await server.WaitForExitAsync();
        }
    }

    private static async Task<Uri> Address(Process server)
    {
        while (await server.StandardOutput.ReadLineAsync() is { } line)
        {
            var at = line.IndexOf("Now listening on: ", StringComparison.Ordinal);
            if (at >= 0)
            {
                _ = server.StandardOutput.ReadToEndAsync();
                _ = server.StandardError.ReadToEndAsync();
                return new Uri(line[(at + "Now listening on: ".Length)..].Trim());
            }
        }

        throw new InvalidOperationException(await server.StandardError.ReadToEndAsync());
    }

    // Three that are tied, one that is held, one that is rejected.
    private static string Batch(int batch) => new JsonArray(
        [.. Enumerable.Range(0, LinesABatch).Select(i => (JsonNode)new JsonObject
        {
            ["sourceId"] = $"b{batch}-{i}",
            ["source"] = "laboratory",
            [i == 3 ? "tube" : "animal"] = i == 3 ? "nowhere" : $"{i % 3}",
            ["sampled"] = "2026-10-05",
            ["outcome"] = i == 4 ? "who knows" : "open",
        })]).ToJsonString();

    private static async Task AssertWhole(string database, ConcurrentBag<int> answered, int batches)
    {
        await using var store = Store.Open(database);
        Assert.True(store.IsHealthy());
        var herd = store.Herds.Find(new LocationKey("farm", "crash"))!;
        var lines = store.Received.List(herd, new ReceivedQuery(), null, 1_000_000).Items;
        var kept = lines.Where(l => l.SourceId is not null).GroupBy(l => int.Parse(l.SourceId!.AsSpan(1, l.SourceId!.IndexOf('-', StringComparison.Ordinal) - 1), CultureInfo.InvariantCulture)).ToDictionary(g => g.Key, g => g.ToList());
        Assert.All(answered, batch => Assert.True(kept.ContainsKey(batch), $"batch {batch} was answered and is gone"));
        var held = store.Held.List(herd, null, null, 1_000_000).Items.Select(h => h.HeldId).ToHashSet();
        var facts = store.Facts.List(herd, null, null, 1_000_000).Items.Where(f => f.Fact.Source == "laboratory").Select(f => f.Fact.Id).ToHashSet();
        foreach (var (batch, found) in kept)
        {
            Assert.InRange(batch, 0, batches - 1);
            Assert.Equal(LinesABatch, found.Count);
            Assert.Single(found.Select(l => l.Batch).Distinct());
            Assert.Equal(["Accepted", "Accepted", "Accepted", "Held", "Rejected"], found.Select(l => l.Decision.ToString()));
            Assert.True(held.Contains(found[3].HeldId!) && found.Take(3).All(l => facts.Contains(l.Fact!.Value)), $"batch {batch} is there in part");
        }

        Assert.Equal((kept.Count, 3 * kept.Count), (held.Count, facts.Count));
    }
}
