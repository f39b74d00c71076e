using NodaTime;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>
/// Plans that a later service, or the bull, cancelled (rule S6), each computed as it stood when that service came.
/// </summary>
internal static class Superseded
{
    /// <summary>The plans of the lactation before the one that stands, oldest first.</summary>
    /// <param name="moment">The moment looked at.</param>
    /// <param name="standing">What the plan that stands hangs on; null = none stands.</param>
    /// <param name="inserts">Takes the inserts they placed.</param>
    public static List<StepPlan> Of(PlanMoment moment, Anchor? standing, Inserts inserts)
    {
        var plans = new List<StepPlan>();
        var state = moment.State;
        var seen = new HashSet<FactId>();
        if (standing is not null)
        {
            seen.Add(standing.Fact);
        }

        foreach (var fact in Services(state))
        {
            // Before the first service there can only be a plan of first service by protocol.
            if (!IsFirst(state, fact) || HasFirstService(moment))
            {
                Add(plans, MomentBefore(moment, fact), fact, seen, inserts);
            }
        }

        return plans;
    }

    private static IEnumerable<Fact> Services(AnimalState state) =>
        state.Services.Select(s => (Fact)s.First)
            .Concat(state.Exposures.Where(e => !(e.Fact.Day <= state.LastCalving?.Day)).Select(e => e.Fact))
            .Order(FactOrder.Instance);

    private static bool IsFirst(AnimalState state, Fact fact) =>
        state.Services.All(s => s.First.Day >= fact.Day) && state.Exposures.All(e => e.First >= fact.Day);

    private static bool HasFirstService(PlanMoment moment) =>
        moment.State.LastCalving is { } calving && moment.Rules.On(calving.Day).Programme.FirstService is not null;

    // A service without a time counts from the start of its day: what came before ended with the day before.
    private static PlanMoment MomentBefore(PlanMoment moment, Fact service)
    {
        var at = StepTimes.At(service.Day, service.Time ?? LocalTime.Midnight);
        var then = StepTimes.Resolve(at, moment.Rules.Zone);
        var history = moment.State.History with { Held = [] };
        var state = service.Time is null
            ? HistoryFold.Fold(history, moment.Rules, service.Day - 1, moment.KnownAt)
            : HistoryFold.FoldBefore(history, moment.Rules, at, then, moment.KnownAt);
        return new PlanMoment(state, moment.Rules, state.AsOf, then < moment.KnownAt ? then : moment.KnownAt);
    }

    private static void Add(List<StepPlan> plans, PlanMoment before, Fact service, HashSet<FactId> seen, Inserts inserts)
    {
        if (before.State.Departure is not null || Planner.Run(before) is not { } run)
        {
            return;
        }

        inserts.Note(before, run.All);
        if (before.State.DoNotBreed is not null || !seen.Add(run.Anchor.Fact))
        {
            return;
        }

        plans.AddRange(run.Lapsed);
        if (run.Plan is { } plan)
        {
            plans.Add(CancelledBy(plan, service, before.Rules.Zone));
        }
    }

    private static StepPlan CancelledBy(StepPlan plan, Fact service, DateTimeZone zone)
    {
        var acts = new RecordedActs([service], plan.Protocol, zone);
        return plan with { Steps = [.. plan.Steps.Select(step => CancelledBy(step, service, acts))] };
    }

    private static PlannedStep CancelledBy(PlannedStep step, Fact service, RecordedActs acts)
    {
        if (step.State is StepState.Done or StepState.Missed || step.Step.Kind == StepKind.InsertOut)
        {
            return step;
        }

        if (step.Step.Kind == StepKind.Inseminate && acts.Take(step.Step, step.At) is { } act)
        {
            return step with { State = StepState.Done, Recorded = act.Id, Clause = null, Reasons = [Reason.Of("S7", "recorded", act.Id)] };
        }

        var word = service is Exposure ? "put with a bull" : "served again";
        return step with { State = StepState.Cancelled, Clause = null, Reasons = [Reason.Of("S6", $"{word} on {service.Day.ToSentence()}", service.Id)] };
    }
}
