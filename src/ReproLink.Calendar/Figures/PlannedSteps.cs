using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Figures;

/// <summary>What became of a planned step.</summary>
internal enum StepEnd
{
    /// <summary>Recorded on its day or before it, within its tolerance.</summary>
    OnTime = 1,

    /// <summary>Recorded on a later day, within its tolerance.</summary>
    Late = 2,

    /// <summary>Not recorded and taken as done (S7).</summary>
    Assumed = 3,

    /// <summary>Not recorded, and past its tolerance.</summary>
    Missed = 4,

    /// <summary>Reported as not done.</summary>
    NotDone = 5,

    /// <summary>Fell away.</summary>
    FellAway = 6,

    /// <summary>The gate was closed at its time, or the programme not approved.</summary>
    Withheld = 7,
}

/// <summary>A planned step whose time is over.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Day">Its planned day.</param>
/// <param name="End">What became of it.</param>
/// <param name="Fact">The fact that did it, or reported it not done.</param>
internal readonly record struct StepRecord(StepKind Kind, Day Day, StepEnd End, FactId? Fact);

/// <summary>The plans of a lactation, as they stood when it ended or stand today.</summary>
internal static class PlannedSteps
{
    /// <summary>The steps of a lactation that touches the period; tells each service the protocol that planned it.</summary>
    public static IReadOnlyList<StepRecord> Of(LactationRecord lactation, AnimalState today, HerdRules rules, FigureQuestion question, Instant knownAt)
    {
        if (lactation.LastDay < question.From || (lactation.Calved ?? lactation.Services.FirstOrDefault()?.Day) is not { } began || began > question.To)
        {
            return [];
        }

        var state = lactation.LastDay == lactation.AsOf ? today : HistoryFold.Fold(today.History with { Held = [] }, rules, lactation.LastDay, knownAt);
        var plans = Planner.Of(state, rules, state.AsOf, knownAt);
        var steps = new List<StepRecord>();
        foreach (var plan in plans.Current is { } current ? plans.Earlier.Append(current) : plans.Earlier)
        {
            foreach (var step in plan.Steps)
            {
                Attribute(lactation, plan, step);
                if (step.Step.Kind != StepKind.WatchOestrus && EndOf(step, state, rules, knownAt) is { } end)
                {
                    steps.Add(new StepRecord(step.Step.Kind, step.Day, end, step.Recorded));
                }
            }
        }

        return steps;
    }

    private static void Attribute(LactationRecord lactation, StepPlan plan, PlannedStep step)
    {
        if (step is not { Step.Kind: StepKind.Inseminate, State: StepState.Done, Recorded: { } by })
        {
            return;
        }

        var service = lactation.Services.Find(s => s.Fact.Id == by || s.Attempt.First.Id == by);
        if (service is not null)
        {
            service.Protocol = plan.Protocol.Id;
        }
    }

    private static StepEnd? EndOf(PlannedStep step, AnimalState state, HerdRules rules, Instant knownAt) => step.State switch
    {
        StepState.Done when step.Assumed => StepEnd.Assumed,
        StepState.Done => RecordedOn(step, state) > step.Day ? StepEnd.Late : StepEnd.OnTime,
        StepState.Missed when step.Recorded is not null => StepEnd.NotDone,
        StepState.Missed => WasWithheld(step, state, rules, knownAt) ? StepEnd.Withheld : StepEnd.Missed,
        StepState.Cancelled when step.Day <= state.AsOf => StepEnd.FellAway,
        _ => null,
    };

    private static Day? RecordedOn(PlannedStep step, AnimalState state)
    {
        foreach (var fact in state.History.Facts)
        {
            if (fact.Id == step.Recorded)
            {
                return fact.Day;
            }
        }

        return null;
    }

    private static bool WasWithheld(PlannedStep step, AnimalState state, HerdRules rules, Instant knownAt)
    {
        if (!rules.On(state.GoverningDay(step.Day)).IsApprovedOn(step.Day))
        {
            return true;
        }

        var at = StepTimes.Resolve(step.At, rules.Zone);
        return step.Step.Gated && Gate.Closed(HistoryFold.FoldBefore(state.History, rules, step.At, at, knownAt)) is not null;
    }
}
