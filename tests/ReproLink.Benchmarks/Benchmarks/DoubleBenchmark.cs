using System.Runtime.CompilerServices;
using NodaTime;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Measuring;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>Herds of doubling size in one file: time of fold and list, and memory.</summary>
internal static class DoubleBenchmark
{
    private const double TimeBudget = 2.2;
    private const double MemoryBudget = 100;
    private const int Doublings = 4;
    private const int Times = 3;

    public static async Task Run(Report report, Sizes sizes)
    {
        using var file = new HerdFile();
        var (lastCold, lastWarm) = (0.0, 0.0);
        var from = 0;
        for (var animals = sizes.MostAnimals >> Doublings; animals <= sizes.MostAnimals; animals *= 2)
        {
            await file.Grow(from, animals);
            from = animals;
            var (cold, warm) = await Measure(file);
            report.Note($"{animals} animals: read, fold and list {cold:0} ms of processor time, list of the herd in memory {warm:0.0} ms");
            if (lastCold > 0)
            {
                report.AtMost(TimeBudget, cold / lastCold, $"doubled to {animals}, read, fold and list");
                report.AtMost(TimeBudget, warm / lastWarm, $"doubled to {animals}, list of the herd in memory");
            }

            (lastCold, lastWarm) = (cold, warm);
        }

        await Memory(report, file, sizes.MostAnimals);
    }

    private static async Task<(double Cold, double Warm)> Measure(HerdFile file)
    {
        var (cold, warm) = (new List<double>(), new List<double>());
        for (var i = 0; i < Times; i++)
        {
            await using var store = Store.Open(file.Path);
            cold.Add(Rounds.ProcessorMilliseconds(() => ListBenchmark.List(store, SystemClock.Instance.GetCurrentInstant())));
            warm.Add(Rounds.ProcessorMilliseconds(() => ListBenchmark.List(store, SystemClock.Instance.GetCurrentInstant())));
        }

        return (Rounds.Median(cold), Rounds.Median(warm));
    }

    private static async Task Memory(Report report, HerdFile file, int animals)
    {
        var facts = (double)animals * MadeHerd.FactsAnAnimal;
        var empty = GC.GetTotalMemory(forceFullCollection: true);
        var store = Store.Open(file.Path);
        var histories = Fold(store);
        var folded = GC.GetTotalMemory(forceFullCollection: true) - empty;
        GC.KeepAlive(store);
        await store.DisposeAsync();
        store = null;
        var rows = GC.GetTotalMemory(forceFullCollection: true) - empty;
        GC.KeepAlive(histories);
        report.Note($"a fact takes {folded / facts:0} bytes in memory, of which {rows / facts:0} are the fact itself, and {new FileInfo(file.Path).Length / facts:0} in the file");
        report.AtMost(MemoryBudget, (folded - rows) / facts, $"bytes of memory a fact beyond the facts themselves, {animals} animals");
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private static AnimalHistory[] Fold(Store store)
    {
        ListBenchmark.List(store, SystemClock.Instance.GetCurrentInstant());
        var view = store.Views.Current(store.Herds.Find(HerdFile.Location)!, SystemClock.Instance.GetCurrentInstant());
        return [.. view.Animals.Select(a => a.History)];
    }
}
