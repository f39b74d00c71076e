using System.Globalization;
using ReproLink.Benchmarks.Benchmarks;
using ReproLink.Benchmarks.Measuring;

namespace ReproLink.Benchmarks;

/// <summary>Runs the benchmarks named on the command line, or all.</summary>
public static class Program
{
    private static readonly (string Name, string What, Func<Report, Sizes, Task> Run)[] All =
    [
        ("fold", "status and window of a herd, against a bare running fold over sorted structs", FoldBenchmark.Run),
        ("list-cold", "this week's list from a closed file, against a raw reader and fold of the same rows", ListBenchmark.Cold),
        ("list-warm", "this week's list of a herd in memory, against the cold one", ListBenchmark.Warm),
        ("list-http", "the same over HTTP, against an SQL aggregate and a script over the CSV", ListHttpBenchmark.Run),
        ("window-http", "one animal's test window over HTTP, against a bare JSON endpoint of the same host", WindowHttpBenchmark.Run),
        ("watched", "the same with limits, metrics and logging of requests, against a host without them", WatchedBenchmark.Run),
        ("pages", "each page of a herd, against the API call that tells programs the same", PageBenchmark.Run),
        ("post-http", "one fact a request, 16 connections, against a connection-per-request writer", PostBenchmark.One),
        ("post-told", "one fact a request while a webhook is told of it, against the same while it is paused", PostTellingBenchmark.Run),
        ("post-batch", "1,000 results in one request, against a bare prepared batch", PostBatchBenchmark.Run),
        ("zip", "a herd taken out and put back over HTTP, against reading and appending its facts", ZipBenchmark.Run),
        ("figures", "all figures of five years in one request, against a bare scan and against half the herd", FiguresBenchmark.Run),
        ("double", "list, fold and memory of herds of doubling size in one file", DoubleBenchmark.Run),
    ];

    /// <summary>The entry.</summary>
    public static async Task<int> Main(string[] args)
    {
        if (args.Contains("--help"))
        {
            return Help();
        }

        var sizes = args.Contains("--quick") ? Sizes.Quick : Sizes.Full;
        var names = args.Where(a => a != "--quick").ToArray();
        if (Array.Find(names, n => !Array.Exists(All, b => b.Name == n)) is { } unknown)
        {
            await Console.Error.WriteLineAsync($"There is no benchmark '{unknown}'. `--help` lists them.");
            return 2;
        }

        var report = new Report(Console.Out);
        foreach (var (name, _, run) in All.Where(b => names.Length == 0 || names.Contains(b.Name)))
        {
            report.Begin(name);
            await run(report, sizes);
            GC.Collect();
        }

        report.End();
        return 0;
    }

    private static int Help()
    {
        Console.WriteLine("Usage: dotnet run -c Release --project tests/ReproLink.Benchmarks [-- [--quick] [NAME ...]]");
        Console.WriteLine("No name = all. --quick = small sizes. Times mean nothing on a shared machine: look at the ratios.");
        foreach (var (name, what, _) in All)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {name,-12} {what}"));
        }

        return 0;
    }
}
