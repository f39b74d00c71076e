using System.Globalization;
using System.Text;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Hosting;
using ReproLink.Benchmarks.Measuring;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>1,000 results in one request.</summary>
internal static class PostBatchBenchmark
{
    private const double Budget = 0.5;
    private const int Results = 1_000;
    private const int Batches = 3;

    public static async Task Run(Report report, Sizes sizes)
    {
        using var file = await HerdFile.With(sizes.ListAnimals);
        var writer = BareWriter.BesideOf(file);
        await using var host = await RunningHost.Start(file.Path);
        var sent = 0;
        async Task<double> Post() => await Rounds.Milliseconds(async () =>
        {
            for (var i = 0; i < Batches; i++)
            {
                await host.Post(RunningHost.HerdPath + "/test-results", Body(sent++, sizes, file));
            }
        }) / Batches;
        double Bare(bool withChanges) => Rounds.Milliseconds(() =>
        {
            for (var i = 0; i < Batches; i++)
            {
                writer.WriteBatch(Animals(sent++, sizes), file.Today.Number, FactKind.Result, withChanges);
            }
        }) / Batches;
        var (ours, bare) = await Rounds.Medians(sizes.Rounds, Post, () => Task.FromResult(Bare(withChanges: false)));
        report.AtLeast(Budget, bare / ours, $"1,000 results in one request: {Results / ours:0.0} rows/ms, bare prepared batch of their rows {Results / bare:0.0} rows/ms, rows/s");
        await Beside(report, sizes, host, file, () => Task.FromResult(Bare(withChanges: true)));
    }

    // Where the time goes: the store alone, and a bare batch that keeps the change cursor as the store does.
    private static async Task Beside(Report report, Sizes sizes, RunningHost host, HerdFile file, Func<Task<double>> bareWithChanges)
    {
        var herd = host.Store.Herds.Find(HerdFile.Location)!;
        var sent = 1_000_000;
        var (store, bare) = await Rounds.Medians(
            sizes.Rounds,
            () => Rounds.Milliseconds(() => host.Store.Facts.Append(herd, Drafts(sent++, sizes, file), file.Now)),
            bareWithChanges);
        report.Note($"the store alone {Results / store:0.0} rows/ms; bare batch with a change row beside each {Results / bare:0.0} rows/ms: {bare / store:0.00}");
    }

    private static int[] Animals(int batch, Sizes sizes) =>
        [.. Enumerable.Range(0, Results).Select(i => ((batch * Results) + i) % sizes.ListAnimals)];

    private static byte[] Body(int batch, Sizes sizes, HerdFile file)
    {
        var day = file.Today.ToString();
        var items = Animals(batch, sizes).Select((animal, i) => string.Create(CultureInfo.InvariantCulture,
            $$"""{"sourceId":"batch-{{batch}}-{{i}}","animal":"{{MadeHerd.NameOf(animal)}}","sampled":"{{day}}","method":"blood","specimen":"serum","outcome":"open"}"""));
        return Encoding.UTF8.GetBytes($"[{string.Join(',', items)}]");
    }

    private static List<FactDraft> Drafts(int batch, Sizes sizes, HerdFile file) =>
        [.. Animals(batch, sizes).Select((animal, i) => new FactDraft(MadeHerd.NameOf(animal), new TestResult(file.Today, TestMethod.Blood, Outcome.Open)
        {
            Source = MadeHerd.Source,
            SourceId = string.Create(CultureInfo.InvariantCulture, $"store-{batch}-{i}"),
            Specimen = "serum",
        }))];
}
