using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>The state of a step; the order is the precedence (rule S5).</summary>
public enum StepState
{
    /// <summary>Fell away: pregnant, or served again.</summary>
    Cancelled = 1,

    /// <summary>Recorded, or assumed done (S7).</summary>
    Done = 2,

    /// <summary>Past its tolerance, or reported as not done.</summary>
    Missed = 3,

    /// <summary>The gate is closed.</summary>
    Held = 4,

    /// <summary>The programme is not approved (S8).</summary>
    AwaitingApproval = 5,

    /// <summary>Hangs on an answer that can still be known in time.</summary>
    Conditional = 6,

    /// <summary>To be done.</summary>
    Firm = 7,
}

/// <summary>One dated step of an animal's plan.</summary>
/// <param name="Step">The protocol's step.</param>
/// <param name="At">Its planned wall-clock time.</param>
/// <param name="State">Its state.</param>
public sealed record PlannedStep(ProtocolStep Step, LocalDateTime At, StepState State)
{
    /// <summary>Its day.</summary>
    public Day Day => Day.From(At.Date);

    /// <summary>The gate's clause: why it is held, or what it hangs on while conditional.</summary>
    public GateClause? Clause { get; init; }

    /// <summary>The fact that did it, or reported it not done.</summary>
    public FactId? Recorded { get; init; }

    /// <summary>Done by assumption only (S7).</summary>
    public bool Assumed { get; init; }

    /// <summary>Another agent that was given on its day: an alert; the step stays unrecorded (T7).</summary>
    public Treatment? OtherAgent { get; init; }

    /// <summary>Whether it falls outside working hours (S3): warned, never moved.</summary>
    public bool OffHours { get; init; }

    /// <summary>Why.</summary>
    public IReadOnlyList<Reason> Reasons { get; init; } = [];

    /// <summary>Last moment of its tolerance, as wall-clock time.</summary>
    public LocalDateTime LatestAt { get; init; }
}

/// <summary>An animal's plan: a protocol hung on its anchor.</summary>
/// <param name="Protocol">The protocol.</param>
/// <param name="Anchor">The service or calving it follows.</param>
/// <param name="AnchorDay">Day 0 of that service, last day with the bull, or the calving day.</param>
/// <param name="Start">Its start day.</param>
/// <param name="Steps">Its steps in order of time.</param>
public sealed record StepPlan(Protocol Protocol, FactId Anchor, Day AnchorDay, Day Start, IReadOnlyList<PlannedStep> Steps)
{
    /// <summary>By how many start weekdays the first start slipped (S2).</summary>
    public int Slips { get; init; }

    /// <summary>How often it was started again after lapsing (S7).</summary>
    public int Restarts { get; init; }

    /// <summary>Why it starts when it does.</summary>
    public IReadOnlyList<Reason> Reasons { get; init; } = [];
}

/// <summary>An insert that has to come out (S4): exempt from the gate and from approval.</summary>
/// <param name="Anchor">The service or calving of the plan.</param>
/// <param name="Step">The step <c>insert-out</c>.</param>
/// <param name="Protocol">The protocol.</param>
/// <param name="Start">Start of the plan it belongs to.</param>
/// <param name="PlacedAt">When it was placed, or due to be.</param>
/// <param name="OutAt">When it is to come out.</param>
/// <param name="PlacedBy">The fact that records the placing; absent = only assumed.</param>
public sealed record InsertToRemove(
    FactId Anchor, ProtocolStep Step, Protocol Protocol, Day Start, LocalDateTime PlacedAt, LocalDateTime OutAt, FactId? PlacedBy)
{
    /// <summary>Day 0 of the plan's service, last day with the bull, or the calving day.</summary>
    public Day AnchorDay { get; init; }

    /// <summary>How often the plan had been started again (S7).</summary>
    public int Restarts { get; init; }
}
