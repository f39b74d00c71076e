using NodaTime;
using ReproLink.Calendar.Dates;
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
        var inserts = new Inserts(state);
        var run = Run(moment);
        var earlier = Superseded.Of(moment, run?.Anchor, inserts);
        if (run is not null)
        {
            inserts.Note(moment, run.All);
            earlier.AddRange(run.Lapsed);
        }

        inserts.NoteUnplanned(rules);
        // Not to be bred: nothing is planned, but an insert still comes out.
        var current = state.DoNotBreed is null ? run?.Plan : null;
        return new AnimalPlans(
            current is null ? null : inserts.Settle(current, isCurrent: true),
            [.. earlier.Select(plan => inserts.Settle(plan, isCurrent: false))],
            inserts.ToRemove());
    }

    /// <summary>
    /// The current plan of <see cref="Of"/> alone. What earlier services left in her matters to it only where an insert is taken out:
    /// without one, her story is not gone through.
    /// </summary>
    /// <param name="state">The animal, folded for <paramref name="asOf"/>.</param>
    /// <param name="rules">The herd's rules.</param>
    /// <param name="asOf">The day looked at.</param>
    /// <param name="knownAt">The moment looked at.</param>
    public static StepPlan? Current(AnimalState state, HerdRules rules, Day asOf, Instant knownAt)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(rules);
        if (!state.Exists || state.Departure is not null || state.DoNotBreed is not null)
        {
            return null;
        }

        var plan = Run(new PlanMoment(state, rules, asOf, knownAt))?.Plan;
        return plan is not null && plan.Steps.Any(s => s.Step.Kind == StepKind.InsertOut)
            ? Of(state, rules, asOf, knownAt).Current
            : plan;
    }

    /// <summary>The plan that hangs on the animal's latest service, or on her calving, followed to the moment.</summary>
    internal static PlanRun? Run(PlanMoment moment)
    {
        var state = moment.State;
        if (Anchor.OfService(state) is { } served)
        {
            return ChosenProtocol.Of(state, moment.Rules, moment.AsOf) is { } chosen ? PlanRun.AfterService(moment, chosen, served) : null;
        }

        // Served by a bull who is still in: there is no day to count from.
        return state.Exposures.Count == 0 && state.LastCalving is { } calving ? PlanRun.FirstService(moment, calving) : null;
    }
}

/// <summary>What a plan hangs on.</summary>
/// <param name="Fact">The service, exposure or calving.</param>
/// <param name="Day">Day 0, last day with the bull, or the calving day.</param>
/// <param name="FailedBy">The fact that failed it; absent = not failed.</param>
internal sealed record Anchor(FactId Fact, Day Day, FactId? FailedBy)
{
    /// <summary>The latest service by day 0, or exposure by its last day; null = none, or the bull is still in.</summary>
    public static Anchor? OfService(AnimalState state)
    {
        Anchor? latest = null;
        foreach (var service in state.Services)
        {
            if (latest is null || service.DayZero >= latest.Day)
            {
                latest = new Anchor(service.Fact.Id, service.DayZero, service.FailedBy);
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
                latest = new Anchor(spell.Fact.Id, last, spell.FailedBy);
            }
        }

        return latest;
    }
}
