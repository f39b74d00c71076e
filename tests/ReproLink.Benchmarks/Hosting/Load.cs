using System.Diagnostics;
using ReproLink.Benchmarks.Measuring;

namespace ReproLink.Benchmarks.Hosting;

/// <summary>What came of a while of requests.</summary>
internal sealed record LoadResult(double PerSecond, double MedianMilliseconds, double P99Milliseconds);

/// <summary>As many callers as connections, each with its next request as soon as the last is answered.</summary>
internal static class Load
{
    public static async Task<LoadResult> Run(TimeSpan time, Func<int, Task> request)
    {
        var watch = Stopwatch.StartNew();
        var next = -1;
        var callers = Enumerable.Range(0, RunningHost.Connections).Select(_ => Task.Run(Call)).ToArray();
        var times = (await Task.WhenAll(callers)).SelectMany(t => t).ToArray();
        var seconds = watch.Elapsed.TotalSeconds;
        Array.Sort(times);
        return new LoadResult(times.Length / seconds, Rounds.Median(times), times[(int)(times.Length * 0.99)]);

        async Task<List<double>> Call()
        {
            var taken = new List<double>(100_000);
            while (watch.Elapsed < time)
            {
                var start = Stopwatch.GetTimestamp();
                await request(Interlocked.Increment(ref next));
                taken.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }

            return taken;
        }
    }
}
