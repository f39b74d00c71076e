using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Tests.Oracle;
using ReproLink.Calendar.WorkCalendar;

namespace ReproLink.Calendar.Tests.Resynchronisation;

/// <summary>
/// Law 3: no prostaglandin and no protocol insemination is ever firm for an animal that an independent check of the raw
/// facts calls possibly pregnant.
/// </summary>
public static class SafetyLaw
{
    /// <summary>The step that breaks the law; null = it holds.</summary>
    public static string? Broken(PlanCase one, out bool anyFirm)
    {
        anyFirm = false;
        var trace = new FoldTrace();
        var state = HistoryFold.Fold(one.History, one.Rules, one.AsOf, one.KnownAt, trace);
        var plans = Planner.Of(state, one.Rules, one.AsOf, one.KnownAt);
        foreach (var plan in plans.Current is { } current ? plans.Earlier.Append(current) : plans.Earlier)
        {
            foreach (var step in plan.Steps)
            {
                if (step is not { State: StepState.Firm, Step.Kind: StepKind.Pgf or StepKind.Inseminate })
                {
                    continue;
                }

                anyFirm = true;
                if (one.History.Held.Count > 0)
                {
                    return $"{step.Step.Id} of {plan.Protocol.Id} on {step.At} is firm though a held result may mean her";
                }

                if (IsDoubted(one, one.Animal.Facts, trace, one.AsOf, Dates.Day.Max(step.Day, one.AsOf)))
                {
                    return $"{step.Step.Id} of {plan.Protocol.Id} on {step.At} is firm";
                }
            }
        }

        return null;
    }

    /// <summary>The independent check of some of her facts, save where the letter of the rules sets a doubt aside.</summary>
    public static bool IsPossiblyPregnant(PlanCase one, IReadOnlyList<Fact> facts, Dates.Day day)
    {
        var trace = new FoldTrace();
        HistoryFold.Fold(AnimalHistory.Of(one.Animal.Animal, facts.Where(f => f.Recorded <= one.KnownAt)), one.Rules, day, one.KnownAt, trace);
        return IsDoubted(one, facts, trace, day, day);
    }

    // A pregnant that was set aside may itself stand between two inconclusive samples: looked at with it and without.
    private static bool IsDoubted(PlanCase one, IReadOnlyList<Fact> facts, FoldTrace trace, Dates.Day asOf, Dates.Day day) =>
        PossiblyPregnant.On(WithoutSetAside(facts, trace, pregnant: true), one.Rules, asOf, one.KnownAt, day)
        && PossiblyPregnant.On(WithoutSetAside(facts, trace, pregnant: false), one.Rules, asOf, one.KnownAt, day);

    // Where the rules and the check differ by the letter, and only there. Everything else the check doubts must close the gate.
    private static List<Fact> WithoutSetAside(IReadOnlyList<Fact> facts, FoldTrace trace, bool pregnant)
    {
        var opens = facts.Where(f => trace.Of(f.Id)?.Decides == Decision.Open).Select(f => f.Day).ToList();
        return [.. facts.Where(f => !IsExcused(f, trace.Of(f.Id), opens, pregnant))
            .Select(f => AsBlood(f, trace.Of(f.Id)))
            .Concat(SeenLost(facts))];
    }

    // A loss seen by examination is an examination open of its day (T6); the check's rows of answers do not know that. Not
    // where a service is too young for it to be one.
    private static IEnumerable<Fact> SeenLost(IReadOnlyList<Fact> facts) =>
        from loss in facts.OfType<Loss>()
        where loss.Examined && !facts.Any(f => f is Service or Exposure && f.Day <= loss.Day && loss.Day - f.Day < 28)
        select new Examination(loss.Day, TestMethod.Ultrasound, Outcome.Open) { Source = loss.Source, SourceId = loss.SourceId + " seen", Recorded = loss.Recorded };

    // A configured milk test is as good as blood (T1); the check counts rows of blood only.
    private static Fact AsBlood(Fact fact, Judgement? judged) => fact is TestResult { Method: TestMethod.Milk } milk && judged is { Decides: not Decision.Nothing }
        ? milk with { Method = TestMethod.Blood }
        : fact;

    private static bool IsExcused(Fact fact, Judgement? judged, List<Dates.Day> opens, bool pregnant) => judged is { Decides: Decision.Nothing } && judged.Effective switch
    {
        // S4: an answer that was set aside closes the gate until a valid open of a later day. T6: an examination that decides outranks
        // blood of its day.
        Outcome.Recheck => opens.Any(day => day > fact.Day) || (fact is TestResult && judged.Reasons[0].Rule == "T6"),
        Outcome.Pregnant when pregnant => opens.Any(day => day > fact.Day) || (fact is TestResult && judged.Reasons[0].Rule == "T6"),
        _ => false,
    };

    /// <summary>Steps that the work calendar shows firm but no plan does; null = none: there is no second way to such a line.</summary>
    public static string? SecondWay(PlanCase one)
    {
        var state = HistoryFold.Fold(one.History, one.Rules, one.AsOf, one.KnownAt);
        var plans = Planner.Of(state, one.Rules, one.AsOf, one.KnownAt);
        var firm = plans.Earlier.Append(plans.Current).OfType<StepPlan>().SelectMany(p => p.Steps)
            .Count(s => s is { State: StepState.Firm, Step.Kind: StepKind.Pgf or StepKind.Inseminate });
        var query = new WorkQuery(one.AsOf - 500, one.AsOf + 100);
        var shown = WorkCalendars.Make([state], one.Rules, query, one.AsOf, one.KnownAt).Items
            .Count(i => i is { State: StepState.Firm, Step: StepKind.Pgf or StepKind.Inseminate });
        return shown > firm ? $"{shown} firm lines, {firm} firm steps" : null;
    }
}
