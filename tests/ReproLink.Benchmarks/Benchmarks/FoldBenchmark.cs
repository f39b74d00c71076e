using NodaTime;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Measuring;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>Status and window of a herd in memory.</summary>
internal static class FoldBenchmark
{
    private const double Budget = 5;
    private const int Passes = 10;

    public static async Task Run(Report report, Sizes sizes)
    {
        var now = SystemClock.Instance.GetCurrentInstant();
        var today = Day.From(now.InUtc().Date);
        var rules = new HerdRules(HerdFile.Zone, []);
        var histories = Enumerable.Range(0, sizes.FoldAnimals).Select(a => MadeHerd.History(a, today)).ToArray();
        var events = BareEvent.OfHerd(sizes.FoldAnimals, today);
        Compare(report, histories, rules, today, now, BareFold.Of(events, today.Number));
        var (ours, bare) = await Rounds.ProcessorMedians(
            sizes.Rounds,
            () => Repeat(() => FoldAll(histories, rules, today, now)),
            () => Repeat(() => BareFold.Of(events, today.Number).Eligible));
        var facts = (double)Passes * events.Length;
        report.AtMost(Budget, ours / bare, $"fold: {ours * 1e6 / facts:0.0} ns a fact with status and window, bare {bare * 1e6 / facts:0.0} ns, {sizes.FoldAnimals} animals");
    }

    private static int FoldAll(AnimalHistory[] histories, HerdRules rules, Day today, Instant now)
    {
        var eligible = 0;
        foreach (var history in histories)
        {
            var state = HistoryFold.Fold(history, rules, today, now);
            eligible += TestWindows.Judge(state, rules, today).Answer == Answer.Eligible ? 1 : 0;
        }

        return eligible;
    }

    private static void Repeat(Func<int> pass)
    {
        for (var i = 0; i < Passes; i++)
        {
            pass();
        }
    }

    private static void Compare(Report report, AnimalHistory[] histories, HerdRules rules, Day today, Instant now, BareTotals bare)
    {
        var states = Array.ConvertAll(histories, h => HistoryFold.Fold(h, rules, today, now));
        var same = states.Count(s => s.Status == AnimalStatus.NotServed) == bare.OfNotServed
            && states.Count(s => s.Status == AnimalStatus.AwaitingTest) == bare.OfAwaitingTest
            && states.Count(s => s.Status == AnimalStatus.Open) == bare.OfOpen
            && states.Count(s => s.Status == AnimalStatus.Pregnant) == bare.OfPregnant
            && states.Count(s => s.Status == AnimalStatus.Recheck) == bare.OfRecheck
            && states.Select(s => TestWindows.Judge(s, rules, today)).Count(v => v.Answer == Answer.Eligible) == bare.Eligible;
        report.Note($"both find {bare.OfNotServed} not served, {bare.OfAwaitingTest} awaiting test, {bare.OfOpen} open, {bare.OfPregnant} pregnant, {bare.OfRecheck} recheck, {bare.Eligible} eligible: {(same ? "yes" : "NO, the figures below compare unlike work")}");
    }
}
