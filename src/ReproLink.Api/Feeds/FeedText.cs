using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.WorkCalendar;

namespace ReproLink.Api.Feeds;

/// <summary>What a feed's entries say. Every entry that can show prostaglandin carries the cautions.</summary>
internal static class FeedText
{
    public static string Title(WorkItem item)
    {
        var work = Work(item);
        var who = item.Animal is { } animal ? $" {animal.Animal}{(animal.Card?.Pen is { } pen ? $" (pen {pen})" : "")}" : "";
        var many = item.Count is { } count ? $": {count} sample{(count == 1 ? "" : "s")}" : "";
        return item.State is StepState.Firm ? $"{work}{who}{many}" : $"{work}{who}{many} – {State(item)}";
    }

    public static string Details(WorkItem item)
    {
        var lines = item.Reasons.Select(r => $"{r.Rule}: {r.Text}").ToList();
        if (item.Step == StepKind.Pgf)
        {
            lines.AddRange(Cautions.All);
        }

        return string.Join('\n', lines);
    }

    public static string DayTitle(IReadOnlyList<WorkItem> items) => string.Join(", ", items
        .Where(i => i.State != StepState.Cancelled)
        .GroupBy(Work)
        .Select(g => $"{g.Key} {g.Sum(i => i.Count ?? 1)}")
        .DefaultIfEmpty("cancelled"));

    public static string DayDetails(IReadOnlyList<WorkItem> items) =>
        string.Join('\n', items.Select(Title).Concat(items.Any(i => i.Step == StepKind.Pgf) ? Cautions.All : []));

    private static string State(WorkItem item) => item switch
    {
        { State: StepState.Conditional } => "only if her result says open",
        { State: StepState.Held, Clause: { } clause } => $"held: {GateWords.Sentence(clause)}",
        { State: StepState.AwaitingApproval } => "waits for the veterinarian's approval",
        _ => WorkWords.Of(item.State),
    };

    private static string Work(WorkItem item) => item.Kind switch
    {
        WorkKind.Step => item.Step switch
        {
            StepKind.Gnrh => "GnRH",
            StepKind.Pgf => "Prostaglandin",
            StepKind.InsertIn => "Progesterone insert in",
            StepKind.InsertOut => "Progesterone insert out",
            _ => "Inseminate",
        },
        WorkKind.WatchOestrus => "Watch for oestrus",
        WorkKind.Draw => "Draw blood",
        WorkKind.Resample => "Draw blood again",
        WorkKind.Confirmation => "Confirm pregnancy",
        WorkKind.Examine => "Examine",
        WorkKind.Dispatch => "Send samples off",
        WorkKind.ResultExpected => "Results expected",
        WorkKind.DryOff => "Dry off",
        WorkKind.CalvingDue => "Calving due",
        _ => "Alert",
    };
}
