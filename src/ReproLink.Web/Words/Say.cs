using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.WorkCalendar;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <summary>Every word and sentence of the pages, in one place.</summary>
public static partial class Say
{
    public static string Iso(Day day) => day.ToString();

    public static string Of(Need need) => need switch
    {
        Need.FirstTest => T("status.first-test"),
        Need.Resample => T("status.sample-again"),
        Need.ResolveConflict => T("status.settle-a-contradiction"),
        Need.CautionRetest => T("status.retest-found-too-soon-after-calving"),
        _ => T("status.confirm-pregnancy"),
    };

    public static string Of(AnimalStatus status) => status switch
    {
        AnimalStatus.NotServed => T("status.not-served"),
        AnimalStatus.AwaitingTest => T("status.served-not-tested-yet"),
        AnimalStatus.Pregnant => T("common.pregnant"),
        AnimalStatus.PregnantCaution => T("status.pregnant-to-be-retested"),
        AnimalStatus.Open => T("common.open"),
        AnimalStatus.Recheck => T("status.inconclusive-treat-as-pregnant"),
        AnimalStatus.Conflict => T("status.facts-contradict-treat-as-pregnant"),
        AnimalStatus.DoNotBreed => T("status.not-to-be-bred"),
        _ => T("status.left-the-herd"),
    };

    public static string WhyNot(CountedRest rest) => (rest.Answer, rest.Reason) switch
    {
        (_, "T1") => T("status.too-soon-after-service"),
        (_, "T2") => T("status.too-soon-after-calving"),
        (_, "T3") => T("status.too-soon-after-a-loss"),
        (_, "T4") => T("status.too-soon-after-the-bull-left"),
        (_, "resample") => T("status.too-soon-after-the-last-sample"),
        (_, "no-sampling-day") => T("status.no-day-for-drawing-blood"),
        (_, "planned-later") => T("status.planned-for-a-later-day"),
        (_, "planned-earlier") => T("status.planned-for-an-earlier-day"),
        (_, "not-served") => T("status.not-served"),
        (_, "open") => T("status.known-open"),
        (_, "confirmed-pregnant") => T("status.pregnant-nothing-to-confirm-now"),
        (_, "awaiting-result") => T("status.sampled-result-on-its-way"),
        (_, "do-not-breed") => T("status.not-to-be-bred"),
        (_, "held-result") => T("status.a-result-waits-for-a-person"),
        (_, "examination-due") => T("status.needs-an-examination"),
        (_, "exposure-running") => T("status.running-with-a-bull"),
        _ => rest.Reason,
    };

    public static string Of(StepKind step) => step switch
    {
        StepKind.Gnrh => T("common.gnrh"),
        StepKind.Pgf => T("common.prostaglandin"),
        StepKind.InsertIn => T("status.progesterone-insert"),
        StepKind.InsertOut => T("status.progesterone-insert-out"),
        StepKind.Inseminate => T("status.insemination"),
        _ => T("common.watch-for-oestrus"),
    };

    public static string Of(WorkKind kind) => kind switch
    {
        WorkKind.Alert => T("status.look-at-her-now"),
        WorkKind.Step => T("status.injections-inserts-inseminations"),
        WorkKind.WatchOestrus => T("common.watch-for-oestrus"),
        WorkKind.Draw => T("common.draw-blood"),
        WorkKind.Resample => T("status.draw-blood-again"),
        WorkKind.Confirmation => T("status.work-confirm-pregnancy"),
        WorkKind.Examine => T("common.examine"),
        WorkKind.Dispatch => T("status.send-samples-off"),
        WorkKind.ResultExpected => T("status.results-expected"),
        WorkKind.DryOff => T("common.dry-off"),
        _ => T("common.calving-due"),
    };

    /// <summary>The state of a line in words a person acts on.</summary>
    public static string Of(WorkItem item) => (item.State, item.Kind) switch
    {
        (StepState.Firm, WorkKind.Alert) => T("status.call-the-veterinarian"),
        (StepState.Firm, WorkKind.CalvingDue or WorkKind.ResultExpected) => T("status.expected"),
        (StepState.Firm, WorkKind.Draw or WorkKind.Resample) => T("status.draw"),
        (StepState.Firm, WorkKind.Step) => item.Step switch
        {
            StepKind.Inseminate => T("status.inseminate"),
            StepKind.InsertIn => T("status.put-in"),
            StepKind.InsertOut => T("status.take-out"),
            _ => T("status.give"),
        },
        _ => OfState(item),
    };

    private static string OfState(WorkItem item) => item.State switch
    {
        StepState.Firm => T("status.do"),
        StepState.Conditional => T("status.only-if-her-result-says-open"),
        StepState.Held => item.Clause is { } clause ? T("status.do-not", GateWords.Sentence(clause)) : T("status.do-not-held"),
        StepState.AwaitingApproval => T("status.do-not-the-veterinarian-has-not"),
        StepState.Done => item.Assumed ? T("common.taken-as-done") : T("common.done"),
        StepState.Missed => T("status.missed"),
        _ => T("status.cancelled"),
    };

    /// <summary>The state of a step, whoever does it.</summary>
    public static string State(StepState state) => state switch
    {
        StepState.Firm => T("status.to-be-done"),
        StepState.Conditional => T("status.only-if-her-result-says-open"),
        StepState.Held => T("common.held-back"),
        StepState.AwaitingApproval => T("status.waits-for-the-veterinarians-approval"),
        StepState.Done => T("common.done"),
        StepState.Missed => T("status.not-done"),
        _ => T("status.fell-away"),
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
