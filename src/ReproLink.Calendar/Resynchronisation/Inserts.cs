using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>
/// Which insert has to come out (rule S4): once placing it was due, until it is recorded out, she calves or leaves; one only
/// assumed in, also until a later insemination. The gate and the approval have no say in it.
/// </summary>
internal static class Inserts
{
    public static InsertToRemove? ToRemove(PlanMoment moment, List<StepPlan> plans)
    {
        InsertToRemove? latest = null;
        foreach (var plan in plans)
        {
            // An animal carries one insert at a time: the last one placed is the one to take out.
            if (Placed(moment, plan) is { } insert && (latest is null || insert.PlacedAt >= latest.PlacedAt))
            {
                latest = insert;
            }
        }

        return latest is not null && !IsOut(moment.State, latest) ? latest : null;
    }

    private static InsertToRemove? Placed(PlanMoment moment, StepPlan plan)
    {
        var placed = plan.Steps.FirstOrDefault(s => s.Step.Kind == StepKind.InsertIn);
        if (placed is null or { State: StepState.Missed, Recorded: not null } or { State: StepState.Cancelled }
            || (placed.State != StepState.Done && placed.Day > moment.AsOf))
        {
            return null;
        }

        var step = plan.Protocol.Steps.First(s => s.Kind == StepKind.InsertOut);
        var fact = moment.State.History.Facts.FirstOrDefault(f => f.Id == placed.Recorded);
        var at = fact is null ? placed.At : StepTimes.At(fact.Day, fact.Time ?? placed.At.TimeOfDay);
        var recorded = fact is null ? (FactId?)null : fact.Id;
        var dated = plan.Steps.FirstOrDefault(s => s.Step == step)?.At ?? StepTimes.After(placed.At, step, moment.Rules.Zone);
        return new InsertToRemove(plan.Anchor, step, plan.Protocol, plan.Start, at, dated, recorded);
    }

    private static bool IsOut(AnimalState state, InsertToRemove insert)
    {
        var placed = Day.From(insert.PlacedAt.Date);
        foreach (var treatment in state.Treatments)
        {
            if (treatment is { Agent: Agent.InsertOut, NotDone: false } && treatment.Day >= placed)
            {
                return true;
            }
        }

        if (state.LastCalving is { } calving && calving.Day > placed)
        {
            return true;
        }

        return insert.PlacedBy is null && state.Services.Any(s => s.Fact is Insemination && s.Fact.Day > placed);
    }
}
