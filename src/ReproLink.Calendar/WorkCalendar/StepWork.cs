using System.Globalization;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.WorkCalendar;

/// <summary>Steps of plans, inserts to take out, and alerts about a wrong agent.</summary>
internal static class StepWork
{
    public static void AddTo(List<WorkItem> items, AnimalState animal, AnimalPlans plans, Day asOf)
    {
        // One alert for one wrong agent, however many steps of its day it did not do.
        var alerts = new SortedDictionary<long, (Treatment Other, StepPlan Plan, bool StillOpen)>();
        foreach (var plan in plans.Earlier)
        {
            Add(items, animal, plan, plans.Insert, alerts);
        }

        if (plans.Current is { } current)
        {
            Add(items, animal, current, plans.Insert, alerts);
        }

        foreach (var (other, plan, stillOpen) in alerts.Values)
        {
            AddWrongAgent(items, animal, plan, other, stillOpen, asOf);
        }

        if (plans.Insert is { } insert)
        {
            AddInsert(items, animal, insert, asOf);
        }
    }

    private static void Add(List<WorkItem> items, AnimalState animal, StepPlan plan, InsertToRemove? insert, SortedDictionary<long, (Treatment Other, StepPlan Plan, bool StillOpen)> alerts)
    {
        foreach (var step in plan.Steps)
        {
            // The insert that has to come out has a line of its own, which no gate and no lapse takes away.
            if (step.Step.Kind == StepKind.InsertOut && step.State != StepState.Done
                && insert is not null && insert.Anchor == plan.Anchor && insert.Restarts == plan.Restarts && insert.Step == step.Step)
            {
                continue;
            }

            items.Add(Line(animal, plan, step));
            if (step.OtherAgent is { } other)
            {
                var stillOpen = step.State is StepState.Firm or StepState.Held or StepState.Conditional or StepState.AwaitingApproval;
                alerts[other.Id.Value] = (other, plan, stillOpen || (alerts.TryGetValue(other.Id.Value, out var seen) && seen.StillOpen));
            }
        }
    }

    private static WorkItem Line(AnimalState animal, StepPlan plan, PlannedStep step) =>
        new(IdOf(animal, plan.Anchor.ToString(), plan.Protocol.Id, plan.Restarts, step.Step.Id), step.Day,
            step.Step.Kind == StepKind.WatchOestrus ? WorkKind.WatchOestrus : WorkKind.Step, step.State)
        {
            Time = step.At.TimeOfDay,
            Step = step.Step.Kind,
            Animal = animal,
            Plan = new PlanLabel(plan.Protocol.Id, plan.AnchorDay, plan.Start),
            Clause = step.Clause,
            OffHours = step.OffHours,
            Assumed = step.Assumed,
            Recorded = step.Recorded,
            Reasons = [.. step.Reasons, .. plan.Reasons],
        };

    // S4: listed on its planned day and, while unrecorded, on today.
    private static void AddInsert(List<WorkItem> items, AnimalState animal, InsertToRemove insert, Day asOf)
    {
        var planned = Day.From(insert.OutAt.Date);
        var line = new WorkItem(IdOf(animal, insert.Anchor.ToString(), insert.Protocol.Id, insert.Restarts, insert.Step.Id), planned, WorkKind.Step, StepState.Firm)
        {
            Time = insert.OutAt.TimeOfDay,
            Step = StepKind.InsertOut,
            Animal = animal,
            Plan = new PlanLabel(insert.Protocol.Id, insert.AnchorDay, insert.Start),
            Reasons = [Reason.Of("S4", "an insert comes out whatever her status", insert.PlacedBy is { } fact ? [fact] : [])],
        };
        items.Add(line);
        if (planned < asOf)
        {
            items.Add(line with { Date = asOf, Overdue = true, IsRepeat = true, Id = WorkIds.Of(line.Id, "today") });
        }
    }

    private static void AddWrongAgent(List<WorkItem> items, AnimalState animal, StepPlan plan, Treatment other, bool stillOpen, Day asOf)
    {
        var alert = new WorkItem(WorkIds.Of(animal.Animal, "wrong-agent", other.Id.ToString()), other.Day, WorkKind.Alert, StepState.Firm)
        {
            Animal = animal,
            Plan = new PlanLabel(plan.Protocol.Id, plan.AnchorDay, plan.Start),
            Reasons = [Reason.Of("T7", $"another agent than planned was recorded on {other.Day.ToSentence()}: the step stays unrecorded", other.Id)],
        };
        items.Add(alert);
        if (other.Day < asOf && stillOpen)
        {
            items.Add(alert with { Date = asOf, IsRepeat = true, Id = WorkIds.Of(alert.Id, "today") });
        }
    }

    private static string IdOf(AnimalState animal, string anchor, string protocol, int restarts, string step) =>
        WorkIds.Of(animal.Animal, "step", anchor, protocol, restarts.ToString(CultureInfo.InvariantCulture), step);
}
