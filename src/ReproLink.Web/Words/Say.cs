using System.Globalization;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.WorkCalendar;

namespace ReproLink.Web.Words;

/// <summary>Every word and sentence of the pages, in one place.</summary>
public static partial class Say
{
    public static string Iso(Day day) => day.ToString();

    public static string Count(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    public static string Of(Need need) => need switch
    {
        Need.FirstTest => "first test",
        Need.Resample => "sample again",
        Need.ResolveConflict => "settle a contradiction",
        Need.CautionRetest => "retest, found too soon after calving to be sure",
        _ => "confirm pregnancy",
    };

    public static string Of(AnimalStatus status) => status switch
    {
        AnimalStatus.NotServed => "not served",
        AnimalStatus.AwaitingTest => "served, not tested yet",
        AnimalStatus.Pregnant => "pregnant",
        AnimalStatus.PregnantCaution => "pregnant, to be retested",
        AnimalStatus.Open => "open",
        AnimalStatus.Recheck => "inconclusive: treat as pregnant",
        AnimalStatus.Conflict => "facts contradict: treat as pregnant",
        AnimalStatus.DoNotBreed => "not to be bred",
        _ => "left the herd",
    };

    public static string WhyNot(CountedRest rest) => (rest.Answer, rest.Reason) switch
    {
        (_, "T1") => "too soon after service",
        (_, "T2") => "too soon after calving",
        (_, "T3") => "too soon after a loss",
        (_, "T4") => "too soon after the bull left",
        (_, "resample") => "too soon after the last sample",
        (_, "no-sampling-day") => "no day for drawing blood",
        (_, "planned-later") => "planned for a later day",
        (_, "planned-earlier") => "planned for an earlier day",
        (_, "not-served") => "not served",
        (_, "open") => "known open",
        (_, "confirmed-pregnant") => "pregnant, nothing to confirm now",
        (_, "awaiting-result") => "sampled, result on its way",
        (_, "do-not-breed") => "not to be bred",
        (_, "held-result") => "a result waits for a person",
        (_, "examination-due") => "needs an examination",
        (_, "exposure-running") => "running with a bull",
        _ => rest.Reason,
    };

    public static string Of(StepKind step) => step switch
    {
        StepKind.Gnrh => "GnRH",
        StepKind.Pgf => "Prostaglandin",
        StepKind.InsertIn => "Progesterone insert in",
        StepKind.InsertOut => "Progesterone insert out",
        StepKind.Inseminate => "Insemination",
        _ => "Watch for oestrus",
    };

    public static string Of(WorkKind kind) => kind switch
    {
        WorkKind.Alert => "Look at her now",
        WorkKind.Step => "Injections, inserts, inseminations",
        WorkKind.WatchOestrus => "Watch for oestrus",
        WorkKind.Draw => "Draw blood",
        WorkKind.Resample => "Draw blood again",
        WorkKind.Confirmation => "Confirm pregnancy",
        WorkKind.Examine => "Examine",
        WorkKind.Dispatch => "Send samples off",
        WorkKind.ResultExpected => "Results expected",
        WorkKind.DryOff => "Dry off",
        _ => "Calving due",
    };

    /// <summary>The state of a line in words a person acts on.</summary>
    public static string Of(WorkItem item) => (item.State, item.Kind) switch
    {
        (StepState.Firm, WorkKind.Alert) => "call the veterinarian",
        (StepState.Firm, WorkKind.CalvingDue or WorkKind.ResultExpected) => "expected",
        (StepState.Firm, WorkKind.Draw or WorkKind.Resample) => "draw",
        (StepState.Firm, WorkKind.Step) => "give",
        _ => OfState(item),
    };

    private static string OfState(WorkItem item) => item.State switch
    {
        StepState.Firm => "do",
        StepState.Conditional => "only if her result says open",
        StepState.Held => item.Clause is { } clause ? $"do not: {GateWords.Sentence(clause)}" : "do not: held",
        StepState.AwaitingApproval => "do not: the veterinarian has not approved the programme",
        StepState.Done => item.Assumed ? "taken as done" : "done",
        StepState.Missed => "missed",
        _ => "cancelled",
    };

    /// <summary>The state of a step, whoever does it.</summary>
    public static string State(StepState state) => state switch
    {
        StepState.Firm => "to be done",
        StepState.Conditional => "only if her result says open",
        StepState.Held => "held back",
        StepState.AwaitingApproval => "waits for the veterinarian's approval",
        StepState.Done => "done",
        StepState.Missed => "not done",
        _ => "fell away",
    };

    public static string Mark(StepState state) => state switch
    {
        StepState.Firm => "go",
        StepState.Conditional => "wait",
        StepState.Done => "done",
        StepState.Missed or StepState.Cancelled => "gone",
        _ => "stop",
    };
}
