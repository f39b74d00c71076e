using ReproLink.Api.Explanations;
using ReproLink.Api.Programmes;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;

namespace ReproLink.Api.Work;

internal static class WorkMapping
{
    public static WorkCalendarAnswer Answer(HerdView view, WorkSchedule schedule) => new()
    {
        Herd = view.Herd.Name,
        AsOf = schedule.AsOf.Date,
        KnownAt = view.KnownAt,
        From = schedule.From.Date,
        To = schedule.To.Date,
        Items = [.. schedule.Items.Select(Item)],
        Totals = [.. schedule.Totals.Select(Total)],
        Cautions = Cautions.All,
        Programme = ProgrammeNote.Of(view.Rules.HasSavedProgramme),
    };

    public static WorkItemContract Item(WorkItem item) => new()
    {
        Id = item.Id,
        Date = item.Date.Date,
        Time = item.Time,
        Session = item.Session?.ToString().ToLowerInvariant(),
        Kind = WorkWords.Of(item.Kind),
        Step = item.Step is { } step ? ProtocolWords.Of(step) : null,
        Animal = item.Animal?.Animal,
        Pen = item.Animal?.Card?.Pen,
        State = WorkWords.Of(item.State),
        Plan = item.Plan is { } plan
            ? new PlanLabelContract { Protocol = plan.Protocol, Anchor = plan.Anchor.Date, StartedOn = plan.StartedOn.Date }
            : null,
        Clause = item.Clause is { } clause ? GateWords.Of(clause) : null,
        Count = item.Count,
        OffHours = item.OffHours ? true : null,
        Assumed = item.Assumed ? true : null,
        Overdue = item.Overdue ? true : null,
        Reasons = [.. item.Reasons.Select(ReasonContract.Of)],
    };

    private static WorkTotalContract Total(DayTotals total) => new()
    {
        Date = total.Date.Date,
        Animals = total.Animals,
        Doses = total.Doses.ToDictionary(d => ProtocolWords.Of(d.Key), d => d.Value),
        Tubes = total.Tubes,
        Needles = total.Needles,
    };
}
