using System.Diagnostics;

namespace ReproLink.Benchmarks.Measuring;

/// <summary>
/// Measures two things in turn, so that whatever else the machine does meanwhile falls on both. The first rounds compile, optimise
/// and fill caches: they are not counted.
/// </summary>
internal static class Rounds
{
    private static readonly TimeSpan WarmUp = TimeSpan.FromSeconds(2);

    public static async Task<(double Ours, double Bare)> Medians(int rounds, Func<Task<double>> ours, Func<Task<double>> bare)
    {
        var (a, b) = (new List<double>(), new List<double>());
        for (var watch = Stopwatch.StartNew(); watch.Elapsed < WarmUp;)
        {
            await ours();
            await bare();
        }

        for (var round = 0; round < rounds; round++)
        {
            var (first, second) = round % 2 == 0 ? (ours, bare) : (bare, ours);
            var one = await first();
            var two = await second();
            a.Add(round % 2 == 0 ? one : two);
            b.Add(round % 2 == 0 ? two : one);
        }

        return (Median(a), Median(b));
    }

    /// <summary>The same in processor time.</summary>
    public static Task<(double Ours, double Bare)> ProcessorMedians(int rounds, Action ours, Action bare) =>
        Medians(rounds, () => Task.FromResult(ProcessorMilliseconds(ours)), () => Task.FromResult(ProcessorMilliseconds(bare)));

    public static double Milliseconds(Action action)
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        var watch = Stopwatch.StartNew();
        action();
        return watch.Elapsed.TotalMilliseconds;
    }

    /// <summary>
    /// Time of this process on any processor: for what only computes. On a busy machine a long run is put aside for others
    /// and a short one is not, and what cannot be measured in turn with its counterpart meets another load.
    /// </summary>
    public static double ProcessorMilliseconds(Action action)
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        var before = Environment.CpuUsage.TotalTime;
        action();
        return (Environment.CpuUsage.TotalTime - before).TotalMilliseconds;
    }

    public static async Task<double> Milliseconds(Func<Task> action)
    {
        GC.Collect();
        GC.WaitForPendingFinalizers();
        var watch = Stopwatch.StartNew();
        await action();
        return watch.Elapsed.TotalMilliseconds;
    }

    public static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToArray();
        return sorted.Length % 2 == 1 ? sorted[sorted.Length / 2] : (sorted[(sorted.Length / 2) - 1] + sorted[sorted.Length / 2]) / 2;
    }
}
