using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Work;

/// <summary>What the calendar's grid counts, in the order of its columns.</summary>
public enum WorkColumn
{
    Draw = 1,
    Gnrh = 2,
    Prostaglandin = 3,
    InsertIn = 4,
    InsertOut = 5,
    Inseminate = 6,
    Watch = 7,
    Confirm = 8,
    Examine = 9,
    DryOff = 10,
    CalvingDue = 11,
}

/// <summary>Columns of work and their words.</summary>
public static class WorkColumns
{
    /// <summary>All, in order.</summary>
    public static readonly IReadOnlyList<WorkColumn> All = Enum.GetValues<WorkColumn>();

    /// <summary>The column of a line; null = it is counted in none.</summary>
    public static WorkColumn? Of(WorkItem item) => item.Kind switch
    {
        WorkKind.Draw or WorkKind.Resample => WorkColumn.Draw,
        WorkKind.Confirmation => item.IsDraw ? WorkColumn.Draw : WorkColumn.Confirm,
        WorkKind.Examine => item.IsRepeat ? null : WorkColumn.Examine,
        WorkKind.DryOff => WorkColumn.DryOff,
        WorkKind.CalvingDue => WorkColumn.CalvingDue,
        WorkKind.WatchOestrus => WorkColumn.Watch,
        WorkKind.Step => OfStep(item),
        _ => null,
    };

    /// <summary>The word in an address.</summary>
    public static string Word(WorkColumn column) => column switch
    {
        WorkColumn.Draw => "draw",
        WorkColumn.Gnrh => "gnrh",
        WorkColumn.Prostaglandin => "pgf",
        WorkColumn.InsertIn => "insert-in",
        WorkColumn.InsertOut => "insert-out",
        WorkColumn.Inseminate => "inseminate",
        WorkColumn.Watch => "watch-oestrus",
        WorkColumn.Confirm => "confirmation",
        WorkColumn.Examine => "examine",
        WorkColumn.DryOff => "dry-off",
        _ => "calving-due",
    };

    /// <summary>The heading.</summary>
    public static string Heading(WorkColumn column) => column switch
    {
        WorkColumn.Draw => T("common.draw-blood"),
        WorkColumn.Gnrh => Say.Of(StepKind.Gnrh),
        WorkColumn.Prostaglandin => Say.Of(StepKind.Pgf),
        WorkColumn.InsertIn => T("work.insert"),
        WorkColumn.InsertOut => T("work.insert-out"),
        WorkColumn.Inseminate => T("work.inseminate"),
        WorkColumn.Watch => T("common.watch-for-oestrus"),
        WorkColumn.Confirm => T("work.confirm-by-hand-or-scan"),
        WorkColumn.Examine => T("common.examine"),
        WorkColumn.DryOff => T("common.dry-off"),
        _ => T("common.calving-due"),
    };

    private static WorkColumn? OfStep(WorkItem item) => item switch
    {
        { IsRepeat: true } => null,
        { Step: StepKind.Gnrh } => WorkColumn.Gnrh,
        { Step: StepKind.Pgf } => WorkColumn.Prostaglandin,
        { Step: StepKind.InsertIn } => WorkColumn.InsertIn,
        { Step: StepKind.InsertOut } => WorkColumn.InsertOut,
        { Step: StepKind.Inseminate } => WorkColumn.Inseminate,
        _ => null,
    };
}
