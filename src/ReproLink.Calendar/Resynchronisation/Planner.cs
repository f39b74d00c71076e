using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>An animal's plans at a moment.</summary>
/// <param name="Current">The plan of her latest service, or of her first service; absent = none.</param>
/// <param name="Earlier">Steps of lapsed plans and of the plan that a later service cancelled, for the record.</param>
/// <param name="Insert">The insert that has to come out; absent = none.</param>
public sealed record AnimalPlans(StepPlan? Current, IReadOnlyList<StepPlan> Earlier, InsertToRemove? Insert)
{
    /// <summary>No plan at all.</summary>
    public static readonly AnimalPlans None = new(null, [], null);
}

/// <summary>Plans resynchronisation and first service (rules S1–S10).</summary>
public static class Planner
{
    /// <summary>The plans of an animal.</summary>
    /// <param name="state">The animal, folded for <paramref name="asOf"/>.</param>
    /// <param name="rules">The herd's rules.</param>
    /// <param name="asOf">The day looked at.</param>
    /// <param name="knownAt">The moment looked at.</param>
    public static AnimalPlans Of(AnimalState state, HerdRules rules, Day asOf, Instant knownAt)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(rules);
        if (!state.Exists || state.Departure is not null)
        {
            return AnimalPlans.None;
        }

        var moment = new PlanMoment(state, rules, asOf, knownAt);
        var earlier = Superseded(state, rules, knownAt);
        var run = Run(moment);
        var all = new List<StepPlan>(earlier);
        if (run is not null)
        {
            all.AddRange(run.Lapsed);
        }

        // Not to be bred: nothing is planned, but an insert still comes out.
        var current = state.DoNotBreed is null ? run?.Plan : null;
        var insert = Inserts.ToRemove(moment, run?.Plan is { } plan ? [.. all, plan] : all);
        return new AnimalPlans(current, all, insert);
    }

    private static PlanRun? Run(PlanMoment moment)
    {
        var state = moment.State;
        if (Anchor.OfService(state) is { } served)
        {
            return ChosenProtocol.Of(state, moment.Rules, moment.AsOf) is { } chosen ? PlanRun.AfterService(moment, chosen, served) : null;
        }

        // Served by a bull who is still in: there is no day to count from.
        return state.Exposures.Count == 0 && state.LastCalving is { } calving ? PlanRun.FirstService(moment, calving) : null;
    }

    // S6: a later service cancels the plan of the one before. It is computed as it stood when the later service came.
    private static List<StepPlan> Superseded(AnimalState state, HerdRules rules, Instant knownAt)
    {
        var plans = new List<StepPlan>();
        if (state.LatestService is not { } latest)
        {
            return plans;
        }

        var at = StepTimes.At(latest.First.Day, latest.First.Time ?? LocalTime.Midnight);
        var before = HistoryFold.FoldBefore(state.History, rules, at, StepTimes.Resolve(at, rules.Zone), knownAt);
        // A fact without a time counts from the start of its day: the service itself must not be among what came before.
        var asOf = before.LatestService?.Fact.Id == latest.Fact.Id ? null : before;
        if (asOf is null)
        {
            asOf = HistoryFold.Fold(state.History, rules, latest.First.Day - 1, knownAt);
        }

        if (asOf.Departure is not null || asOf.DoNotBreed is not null)
        {
            return plans;
        }

        var then = StepTimes.Resolve(at, rules.Zone);
        var moment = new PlanMoment(asOf, rules, asOf.AsOf, then < knownAt ? then : knownAt);
        if (Run(moment) is { } run)
        {
            plans.AddRange(run.Lapsed);
            if (run.Plan is { } plan)
            {
                plans.Add(Cancelling.By(plan, latest, rules));
            }
        }

        return plans;
    }
}

/// <summary>What a plan hangs on.</summary>
/// <param name="Fact">The service, exposure or calving.</param>
/// <param name="Day">Day 0, last day with the bull, or the calving day.</param>
internal sealed record Anchor(FactId Fact, Day Day)
{
    /// <summary>The latest service by day 0, or exposure by its last day; null = none, or the bull is still in.</summary>
    public static Anchor? OfService(AnimalState state)
    {
        Anchor? latest = null;
        foreach (var service in state.Services)
        {
            if (latest is null || service.DayZero >= latest.Day)
            {
                latest = new Anchor(service.Fact.Id, service.DayZero);
            }
        }

        foreach (var spell in state.Exposures)
        {
            if (spell.Last is not { } last)
            {
                return null;
            }

            if (latest is null || last >= latest.Day)
            {
                latest = new Anchor(spell.Fact.Id, last);
            }
        }

        return latest;
    }
}

/// <summary>Marks what is left of a plan as cancelled (rule S6).</summary>
internal static class Cancelling
{
    public static StepPlan By(StepPlan plan, ServiceAttempt service, HerdRules rules)
    {
        var acts = new RecordedActs([service.First], rules.Zone);
        return plan with
        {
            Steps = [.. plan.Steps.Select(step => step.State is StepState.Done or StepState.Missed || step.Step.Kind == StepKind.InsertOut
                ? step
                : step.Step.Kind == StepKind.Inseminate && acts.Take(step.Step, step.At) is { } act
                    ? step with { State = StepState.Done, Recorded = act.Id, Clause = null }
                    : step with
                    {
                        State = StepState.Cancelled,
                        Clause = null,
                        Reasons = [Reason.Of("S6", $"served again on {service.First.Day.ToSentence()}", service.First.Id)],
                    })],
        };
    }
}
