using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Hosting;
using ReproLink.Benchmarks.Measuring;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>One animal's test window over HTTP.</summary>
internal static class WindowHttpBenchmark
{
    private const double Budget = 0.6;
    private const int AnimalsAsked = 1_000;

    public static async Task Run(Report report, Sizes sizes)
    {
        using var file = await HerdFile.With(sizes.ListAnimals);
        await using var host = await RunningHost.Start(file.Path, app => app.MapGet("/bare", () => Results.Ok(new BareAnswer("1042", "awaiting-test", true))));
        using var anonymous = host.WithoutKey();
        var paths = Enumerable.Range(0, AnimalsAsked).Select(a => $"{RunningHost.HerdPath}/animals/{MadeHerd.NameOf(a)}/test-window").ToArray();
        var (ours, bare) = await Rounds.Medians(
            sizes.Rounds,
            async () => (await Load.Run(sizes.Load, i => host.Get(paths[i % paths.Length]))).PerSecond,
            async () => (await Load.Run(sizes.Load, _ => RunningHost.Get(anonymous, "/bare"))).PerSecond);
        report.AtLeast(Budget, ours / bare, $"test window over HTTP: {ours:0} requests/s, bare JSON endpoint {bare:0}, {RunningHost.Connections} connections");
    }
}

/// <summary>What the bare endpoint answers.</summary>
internal sealed record BareAnswer(string Animal, string Status, bool Eligible);
