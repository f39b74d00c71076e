using NodaTime;
using ReproLink.Benchmarks.Herds;
using ReproLink.Benchmarks.Measuring;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Benchmarks.Benchmarks;

/// <summary>All figures of five years in one request.</summary>
internal static class FiguresBenchmark
{
    private const double LinearBudget = 2.2;
    private const int Years = 5;

    public static async Task Run(Report report, Sizes sizes)
    {
        var now = SystemClock.Instance.GetCurrentInstant();
        var today = Day.From(now.InUtc().Date);
        var rules = new HerdRules(HerdFile.Zone, []);
        var states = Enumerable.Range(0, sizes.FoldAnimals).Select(a => HistoryFold.Fold(LongHerd.History(a, today, Years), rules, today, now)).ToArray();
        var half = states[..(states.Length / 2)];
        var facts = states.Sum(s => s.History.Facts.Count);
        var question = new FigureQuestion(today - (Years * 365), today);
        var set = HerdFigures.Make(states, rules, question, today, now);
        report.Note($"{states.Length} cows, {Years} years, {facts} facts; conception risk {set["conception-risk"].Line("all")!.Value:0.000} of {set["conception-risk"].Line("all")!.Denominator} services");
        var (all, bare) = await Rounds.ProcessorMedians(sizes.Rounds, () => HerdFigures.Make(states, rules, question, today, now), () => Scan(states));
        report.Note($"figures {all:0} ms, {all * 1e6 / facts:0} ns a fact; a bare scan of the same facts {bare:0.0} ms: {all / bare:0} times");
        var (whole, part) = await Rounds.ProcessorMedians(sizes.Rounds, () => HerdFigures.Make(states, rules, question, today, now), () => HerdFigures.Make(half, rules, question, today, now));
        report.AtMost(LinearBudget, whole / part, $"figures of twice the facts: {whole:0} ms, of half {part:0} ms");
    }

    // The least that looks at every fact: services and results counted by kind and outcome.
    private static int Scan(AnimalState[] states)
    {
        var (services, pregnant) = (0, 0);
        foreach (var state in states)
        {
            foreach (var fact in state.History.Facts)
            {
                services += fact.Kind == FactKind.Insemination ? 1 : 0;
                pregnant += fact is TestResult { Outcome: Outcome.Pregnant } ? 1 : 0;
            }
        }

        return services + pregnant;
    }
}
