using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.WorkCalendar;

/// <summary>The kinds of work (5.9), in the order in which one session's lines are shown.</summary>
public enum WorkKind
{
    /// <summary>Something went wrong that a person must look at now.</summary>
    Alert = 1,

    /// <summary>A step of a plan.</summary>
    Step = 2,

    /// <summary>Watch for oestrus.</summary>
    WatchOestrus = 3,

    /// <summary>Draw blood.</summary>
    Draw = 4,

    /// <summary>Draw blood again.</summary>
    Resample = 5,

    /// <summary>Confirm a pregnancy, by blood or by examination.</summary>
    Confirmation = 6,

    /// <summary>Only an examination decides.</summary>
    Examine = 7,

    /// <summary>Samples leave the farm.</summary>
    Dispatch = 8,

    /// <summary>Results are expected.</summary>
    ResultExpected = 9,

    /// <summary>Dry off.</summary>
    DryOff = 10,

    /// <summary>Calving is due.</summary>
    CalvingDue = 11,
}

/// <summary>One dated line of the work calendar.</summary>
/// <param name="Id">Stable: the same work keeps its id when it is dated anew. Written <c>w_</c> and 13 letters and digits.</param>
/// <param name="Date">The day.</param>
/// <param name="Kind">What it is.</param>
/// <param name="State">Its state.</param>
public sealed record WorkItem(string Id, Day Date, WorkKind Kind, StepState State)
{
    /// <summary>Wall-clock time; absent where the session is enough.</summary>
    public LocalTime? Time { get; init; }

    /// <summary>The session, where there is no time.</summary>
    public Session? Session { get; init; }

    /// <summary>The step's kind.</summary>
    public StepKind? Step { get; init; }

    /// <summary>The animal; absent for work on many, such as a dispatch.</summary>
    public AnimalState? Animal { get; init; }

    /// <summary>Whether blood is drawn: one tube, one needle.</summary>
    public bool IsDraw { get; init; }

    /// <summary>How many samples, for dispatch and expected results.</summary>
    public int? Count { get; init; }

    /// <summary>The plan the step belongs to.</summary>
    public PlanLabel? Plan { get; init; }

    /// <summary>The gate's clause.</summary>
    public GateClause? Clause { get; init; }

    /// <summary>Whether it falls outside working hours: warned, never moved (S3).</summary>
    public bool OffHours { get; init; }

    /// <summary>Done by assumption only (S7).</summary>
    public bool Assumed { get; init; }

    /// <summary>The fact that did the step, or reported it not done.</summary>
    public FactId? Recorded { get; init; }

    /// <summary>Shown on today once more because it is not ended: its own day has a line too.</summary>
    public bool IsRepeat { get; init; }

    /// <summary>Past its last useful day.</summary>
    public bool Overdue { get; init; }

    /// <summary>Why.</summary>
    public IReadOnlyList<Reason> Reasons { get; init; } = [];
}

/// <summary>Which plan a step belongs to.</summary>
/// <param name="Protocol">The protocol's id.</param>
/// <param name="Anchor">Day 0 of the service, last day with the bull, or the calving day.</param>
/// <param name="StartedOn">The start day.</param>
public sealed record PlanLabel(string Protocol, Day Anchor, Day StartedOn);

/// <summary>What one day asks for.</summary>
/// <param name="Date">The day.</param>
/// <param name="Animals">Animals handled.</param>
/// <param name="Doses">Doses by agent class; firm and conditional steps, on the day itself firm ones only.</param>
/// <param name="Tubes">Tubes drawn.</param>
/// <param name="Needles">Needles: injections and draws.</param>
public sealed record DayTotals(Day Date, int Animals, IReadOnlyDictionary<StepKind, int> Doses, int Tubes, int Needles);

/// <summary>The work of a period.</summary>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
/// <param name="AsOf">The day it is made on.</param>
/// <param name="Items">The lines, by day, time, pen and animal.</param>
/// <param name="Totals">The days with work.</param>
public sealed record WorkSchedule(Day From, Day To, Day AsOf, IReadOnlyList<WorkItem> Items, IReadOnlyList<DayTotals> Totals);
