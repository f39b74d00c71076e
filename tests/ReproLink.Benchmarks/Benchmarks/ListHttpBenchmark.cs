using System.Text;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Hosting;
using ReproLink.Benchmarks.Measuring;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>This week's list over HTTP, of a herd in memory.</summary>
internal static class ListHttpBenchmark
{
    private const double Budget = 100;
    private const int Requests = 50;

    public static async Task Run(Report report, Sizes sizes)
    {
        using var file = await HerdFile.With(sizes.HttpAnimals);
        await using var host = await RunningHost.Start(file.Path);
        var path = RunningHost.HerdPath + "/bleed-list";
        await AgainstSql(report, sizes, file, () => Ask(host, path));
        await AgainstScript(report, sizes, file, () => Ask(host, path));
        await WithoutLimit(report, sizes, host, path);
    }

    private static async Task AgainstSql(Report report, Sizes sizes, HerdFile file, Func<Task<double>> ask)
    {
        using var connection = RawRows.Open(file.Path);
        var (ours, sql) = await Rounds.Medians(
            sizes.Rounds, ask, () => Task.FromResult(Rounds.Milliseconds(() => RawRows.CountEligible(connection, file.Today.Number))));
        report.Note($"the aggregate counts {RawRows.CountEligible(connection, file.Today.Number)} due for a first test, the service lists every need with reasons");
        report.AtLeast(Budget, sql / ours, $"list over HTTP: {ours:0.00} ms, SQL aggregate {sql:0} ms, {sizes.HttpAnimals} animals, times faster");
    }

    private static async Task AgainstScript(Report report, Sizes sizes, HerdFile file, Func<Task<double>> ask)
    {
        PlainScript.Write(file, sizes.HttpAnimals);
        if (PlainScript.Run(file) is not { } counted)
        {
            report.Note($"script over the CSV: skipped, there is no python3 here");
            return;
        }

        report.Note($"the script counts {counted}");
        var (ours, script) = await Rounds.Medians(
            Math.Min(sizes.Rounds, 3), ask, () => Task.FromResult(Rounds.Milliseconds(() => PlainScript.Run(file))));
        report.AtLeast(Budget, script / ours, $"list over HTTP: {ours:0.00} ms, script over the CSV {script:0} ms, {sizes.HttpAnimals} animals, times faster");
    }

    // Not in the budget: with the default programme a day lists 150 animals at most, whatever the herd.
    private static async Task WithoutLimit(Report report, Sizes sizes, RunningHost host, string path)
    {
        var programme = Encoding.UTF8.GetBytes("""{"inForceFrom":"2020-01-01","week":{"maxTubesPerDay":10000}}""");
        await host.Put(RunningHost.HerdPath + "/programme", programme);
        var first = await Rounds.Milliseconds(() => host.Get(path));
        var size = (await host.Get(path)).Length;
        var times = new List<double>();
        for (var i = 0; i < sizes.Rounds; i++)
        {
            times.Add(await Ask(host, path));
        }

        report.Note($"without a daily limit: first {first:0} ms, then {Rounds.Median(times):0.0} ms for an answer of {size / 1e6:0.0} MB");
    }

    private static async Task<double> Ask(RunningHost host, string path) => await Rounds.Milliseconds(async () =>
    {
        for (var i = 0; i < Requests; i++)
        {
            await host.Get(path);
        }
    }) / Requests;
}
