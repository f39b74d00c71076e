using NodaTime;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Measuring;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>This week's list, from a closed file and of a herd in memory.</summary>
internal static class ListBenchmark
{
    private const double ColdBudget = 2;
    private const double WarmBudget = 0.05;

    public static async Task Cold(Report report, Sizes sizes)
    {
        using var file = await HerdFile.With(sizes.ListAnimals);
        var (ours, bare) = await Rounds.ProcessorMedians(
            sizes.Rounds, () => OpenAndList(file), () => RawRows.ReadAndFold(file.Path, file.Today.Number));
        report.AtMost(ColdBudget, ours / bare, $"list cold: {ours:0} ms, raw reader and bare fold {bare:0} ms, {sizes.ListAnimals} animals");
    }

    public static async Task Warm(Report report, Sizes sizes)
    {
        using var file = await HerdFile.With(sizes.ListAnimals);
        await using var store = Store.Open(file.Path);
        List(store, file.Now);
        var (warm, cold) = await Rounds.ProcessorMedians(
            sizes.Rounds, () => List(store, SystemClock.Instance.GetCurrentInstant()), () => OpenAndList(file));
        report.AtMost(WarmBudget, warm / cold, $"list warm: {warm:0.0} ms, cold {cold:0} ms, {sizes.ListAnimals} animals");
    }

    private static void OpenAndList(HerdFile file)
    {
        var store = Store.Open(file.Path);
        List(store, SystemClock.Instance.GetCurrentInstant());
        store.DisposeAsync().AsTask().GetAwaiter().GetResult();
    }

    /// <summary>The week from today on.</summary>
    public static BleedList List(Store store, Instant now)
    {
        var view = store.Views.Current(store.Herds.Find(HerdFile.Location)!, now);
        return BleedLists.Make(view.Animals, view.Rules, view.AsOf, view.AsOf + 6, view.AsOf);
    }
}
