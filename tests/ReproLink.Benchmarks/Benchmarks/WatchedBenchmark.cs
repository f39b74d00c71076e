using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Hosting;
using ReproLink.Benchmarks.Measuring;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>One animal's test window over HTTP, by hosts that limit, count and log requests and by one that does none of it.</summary>
internal static class WatchedBenchmark
{
    private const double Budget = 0.9;
    private const int AnimalsAsked = 1_000;

    public static async Task Run(Report report, Sizes sizes)
    {
        using var file = await HerdFile.With(sizes.ListAnimals);
        await using var unwatched = await RunningHost.Start(file.Path, watched: false);
        var paths = Enumerable.Range(0, AnimalsAsked).Select(a => $"{RunningHost.HerdPath}/animals/{MadeHerd.NameOf(a)}/test-window").ToArray();

        await using (var watched = await RunningHost.Start(file.Path))
        {
            var (with, without) = await InTurn(watched);
            report.AtLeast(Budget, with / without, $"test window with limits and metrics: {with:0} requests/s, {without:0} without");
        }

        await using (var logging = await Quietly(() => RunningHost.Start(file.Path, logRequests: true)))
        {
            var (with, without) = await InTurn(logging);
            report.Note($"with a line of log for each as well, thrown away: {with / without:0.###}, {with:0} requests/s, {without:0} without");
        }

        Task<(double With, double Without)> InTurn(RunningHost watched) => Rounds.Medians(sizes.Rounds, () => PerSecond(watched), () => PerSecond(unwatched));

        async Task<double> PerSecond(RunningHost host) => (await Load.Run(sizes.Load, i => host.Get(paths[i % paths.Length]))).PerSecond;
    }

    // The console a host logs to is the one there is when it is made: its lines are written, and nobody sees them.
    private static async Task<RunningHost> Quietly(Func<Task<RunningHost>> start)
    {
        var console = Console.Out;
        Console.SetOut(TextWriter.Null);
        try
        {
            return await start();
        }
        finally
        {
            Console.SetOut(console);
        }
    }
}
