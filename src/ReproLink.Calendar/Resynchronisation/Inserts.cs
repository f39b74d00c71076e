using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>
/// Which insert has to come out (rule S4): once placing it was due, until it is recorded out, she calves or leaves; one only
/// assumed in, also until a later insemination. The gate and the approval have no say in it.
/// </summary>
internal sealed class Inserts(AnimalState state)
{
    private readonly List<InsertToRemove> _placed = [];

    /// <summary>Notes the inserts of plans, as they stood at a moment.</summary>
    public void Note(PlanMoment moment, IEnumerable<StepPlan> plans)
    {
        foreach (var plan in plans)
        {
            for (var i = 0; i < plan.Steps.Count; i++)
            {
                if (plan.Steps[i].Step.Kind == StepKind.InsertIn && Placed(moment, plan, plan.Steps[i]) is { } insert)
                {
                    _placed.Add(insert);
                }
            }
        }
    }

    /// <summary>
    /// Notes what was recorded as placed without ticking a step of any plan: outside every tolerance, or of a plan that later
    /// facts took away. It is in her all the same; it comes out as in the herd's protocols.
    /// </summary>
    public void NoteUnplanned(HerdRules rules)
    {
        foreach (var treatment in state.Treatments)
        {
            if (treatment is not { Agent: Agent.InsertIn, NotDone: false } || _placed.Exists(i => i.PlacedBy == treatment.Id) || Known(rules) is not { } protocol)
            {
                continue;
            }

            var step = protocol.Steps.First(s => s.Kind == StepKind.InsertOut);
            var at = StepTimes.At(treatment.Day, treatment.Time ?? rules.On(treatment.Day).Programme.Week.Morning);
            _placed.Add(new InsertToRemove(treatment.Id, step, protocol, treatment.Day, at, StepTimes.After(at, step, rules.Zone), treatment.Id) { AnchorDay = treatment.Day });
        }
    }

    // A protocol of the herd with an insert: of those in use, else of any version.
    private Protocol? Known(HerdRules rules) => _placed.Select(i => i.Protocol)
        .Concat(rules.Versions.Reverse().Select(v => v.Programme).SelectMany(p => new[] { p.Resynchronisation.Protocol, p.Resynchronisation.ProtocolHeifer, p.FirstService?.Protocol }
            .Select(rules.FindProtocol).OfType<Protocol>()))
        .FirstOrDefault(p => p.Steps.Any(s => s.Kind == StepKind.InsertOut));

    /// <summary>
    /// The insert to take out. An animal carries one at a time, the last one placed; but one on record is never forgotten
    /// over a later one that is only assumed.
    /// </summary>
    public InsertToRemove? ToRemove() => _placed
        .Where(insert => Ended(insert) is null)
        .OrderBy(insert => insert.PlacedBy is not null)
        .ThenBy(insert => insert.PlacedAt)
        .LastOrDefault();

    /// <summary>A plan whose insert-out steps say what became of the insert.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="isCurrent">Whether it still stands.</param>
    public StepPlan Settle(StepPlan plan, bool isCurrent)
    {
        if (!plan.Steps.Any(s => s.Step.Kind == StepKind.InsertOut))
        {
            return plan;
        }

        return plan with { Steps = [.. plan.Steps.Select(s => s.Step.Kind == StepKind.InsertOut && s.State != StepState.Done ? Settled(plan, s, isCurrent) : s)] };
    }

    private PlannedStep Settled(StepPlan plan, PlannedStep step, bool isCurrent)
    {
        var insert = _placed.Find(i => i.Anchor == plan.Anchor && i.Restarts == plan.Restarts && i.Step == step.Step);
        if (insert is null)
        {
            return isCurrent ? step : step with { State = StepState.Cancelled, Clause = null, Reasons = [Reason.Of("S4", "no insert was placed")] };
        }

        return Ended(insert) switch
        {
            Treatment taken => step with { State = StepState.Done, Recorded = taken.Id, Clause = null, Reasons = [Reason.Of("S4", "recorded out", taken.Id)] },
            { } other => step with { State = StepState.Cancelled, Clause = null, Reasons = [Reason.Of("S4", "no insert is left to take out", other.Id)] },
            null => step with { State = StepState.Firm, Clause = null },
        };
    }

    // Placing it was due when its time came while nothing forbade the plan; what was reported as not done was never in.
    private static InsertToRemove? Placed(PlanMoment moment, StepPlan plan, PlannedStep placed)
    {
        if (placed is { State: StepState.Missed, Recorded: not null } || (placed.State != StepState.Done && !WasDue(moment, placed)))
        {
            return null;
        }

        var step = plan.Protocol.Steps.SkipWhile(s => s != placed.Step).First(s => s.Kind == StepKind.InsertOut);
        var fact = moment.State.History.Facts.FirstOrDefault(f => f.Id == placed.Recorded);
        var at = fact is null ? placed.At : StepTimes.At(fact.Day, fact.Time ?? placed.At.TimeOfDay);
        var recorded = fact is null ? (FactId?)null : fact.Id;
        // A plan that lapsed before the step still owes it, counted from the placing.
        var dated = plan.Steps.FirstOrDefault(s => s.Step == step)?.At ?? StepTimes.After(at, step, moment.Rules.Zone);
        return new InsertToRemove(plan.Anchor, step, plan.Protocol, plan.Start, at, dated, recorded) { AnchorDay = plan.AnchorDay, Restarts = plan.Restarts };
    }

    private static bool WasDue(PlanMoment moment, PlannedStep placed) =>
        placed.At <= moment.Now && moment.Before(placed.At) is { Pregnancy: null, DoNotBreed: null, Departure: null };

    // The fact that took it out or ends the search for it; null = it is in.
    private Fact? Ended(InsertToRemove insert)
    {
        foreach (var fact in state.History.Facts)
        {
            if (fact.Day <= state.AsOf && IsAfter(fact, insert) && Ends(fact, insert))
            {
                return fact;
            }
        }

        return null;
    }

    // On the day it was placed only a record that is timed later takes it out: the other is of the insert before.
    private static bool IsAfter(Fact fact, InsertToRemove insert) =>
        fact.Day.Date > insert.PlacedAt.Date
        || (fact.Day.Date == insert.PlacedAt.Date && fact.Time > insert.PlacedAt.TimeOfDay && fact is Treatment);

    private static bool Ends(Fact fact, InsertToRemove insert) => fact switch
    {
        Treatment { Agent: Agent.InsertOut, NotDone: false } or Calving or Departure => true,
        Insemination => insert.PlacedBy is null,
        _ => false,
    };
}
