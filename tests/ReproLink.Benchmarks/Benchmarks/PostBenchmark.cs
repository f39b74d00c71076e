using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Hosting;
using ReproLink.Benchmarks.Measuring;
using ReproLink.Calendar.Facts;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>One fact a request.</summary>
internal static class PostBenchmark
{
    private const double ThroughputBudget = 5;
    private const double P99Budget = 0.02;

    public static async Task One(Report report, Sizes sizes)
    {
        using var file = await HerdFile.With(sizes.ListAnimals);
        var writer = BareWriter.BesideOf(file);
        await using var host = await RunningHost.Start(file.Path, app => app.MapPost("/bare", (BareFact[] facts) => Write(writer, facts)));
        var day = file.Today.ToString();
        var sent = 0;
        var (oursResults, bareResults) = (new List<LoadResult>(), new List<LoadResult>());
        var (ours, bare) = await Rounds.Medians(
            sizes.Rounds,
            () => Measure(oursResults, sizes, _ => host.Post(RunningHost.HerdPath + "/facts", Body(Interlocked.Increment(ref sent), sizes, day))),
            () => Measure(bareResults, sizes, _ => host.Post("/bare", BareBody(Interlocked.Increment(ref sent), sizes, file.Today.Number))));
        var (p99, bareP99) = (Rounds.Median(oursResults.TakeLast(sizes.Rounds).Select(r => r.P99Milliseconds)), Rounds.Median(bareResults.TakeLast(sizes.Rounds).Select(r => r.P99Milliseconds)));
        report.AtLeast(ThroughputBudget, ours / bare, $"one fact a request: {ours:0} requests/s, connection per request at FULL {bare:0}, {RunningHost.Connections} connections, times");
        report.AtMost(P99Budget, p99 / bareP99, $"its p99: {p99:0.0} ms, connection per request {bareP99:0} ms");
    }

    private static async Task<double> Measure(List<LoadResult> results, Sizes sizes, Func<int, Task> request)
    {
        var result = await Load.Run(sizes.Load, request);
        results.Add(result);
        return result.PerSecond;
    }

    private static IResult Write(BareWriter writer, BareFact[] facts)
    {
        foreach (var fact in facts)
        {
            writer.WriteOne(fact.Animal, fact.Day, FactKind.Oestrus);
        }

        return Results.Ok(new { results = facts.Length });
    }

    private static byte[] Body(int number, Sizes sizes, string day) =>
        Encoding.UTF8.GetBytes($$"""[{"sourceId":"post-{{number}}","kind":"oestrus","animal":"{{MadeHerd.NameOf(number % sizes.ListAnimals)}}","date":"{{day}}"}]""");

    private static byte[] BareBody(int number, Sizes sizes, int day) =>
        Encoding.UTF8.GetBytes($$"""[{"animal":{{number % sizes.ListAnimals}},"day":{{day}}}]""");
}

/// <summary>What the bare endpoint takes.</summary>
internal sealed record BareFact(int Animal, int Day);
