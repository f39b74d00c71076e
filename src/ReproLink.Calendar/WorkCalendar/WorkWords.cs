using ReproLink.Calendar.Resynchronisation;

namespace ReproLink.Calendar.WorkCalendar;

/// <summary>The words of work items as written in answers.</summary>
public static class WorkWords
{
    /// <summary>The word of a kind.</summary>
    public static string Of(WorkKind kind) => kind switch
    {
        WorkKind.Alert => "alert",
        WorkKind.Step => "step",
        WorkKind.WatchOestrus => "watch-oestrus",
        WorkKind.Draw => "draw",
        WorkKind.Resample => "resample",
        WorkKind.Confirmation => "confirmation",
        WorkKind.Examine => "examine",
        WorkKind.Dispatch => "dispatch",
        WorkKind.ResultExpected => "result-expected",
        WorkKind.DryOff => "dry-off",
        WorkKind.CalvingDue => "calving-due",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "no such kind"),
    };

    /// <summary>The word of a state.</summary>
    public static string Of(StepState state) => state switch
    {
        StepState.Cancelled => "cancelled",
        StepState.Done => "done",
        StepState.Missed => "missed",
        StepState.Held => "held",
        StepState.AwaitingApproval => "awaiting-approval",
        StepState.Conditional => "conditional",
        StepState.Firm => "firm",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "no such state"),
    };
}
