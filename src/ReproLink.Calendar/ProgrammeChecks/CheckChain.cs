using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.ProgrammeChecks;

/// <summary>What a chain begins with.</summary>
public enum ChainFrom
{
    /// <summary>A service: resynchronisation.</summary>
    Service = 1,

    /// <summary>A calving: first service.</summary>
    Calving = 2,
}

/// <summary>What is wrong, or worth knowing, in a chain.</summary>
public enum CheckProblem
{
    /// <summary>No start leaves a draw day whose answer is back in time; the plan waits for <c>open</c>.</summary>
    Infeasible = 1,

    /// <summary>The start slipped to a later start weekday (S2).</summary>
    Slip = 2,

    /// <summary>A step falls on a Saturday or Sunday.</summary>
    WeekendStep = 3,

    /// <summary>A step falls outside working hours.</summary>
    OffHoursStep = 4,
}

/// <summary>One dated step of a chain.</summary>
/// <param name="Id">The step's id in its protocol.</param>
/// <param name="Kind">What is done.</param>
/// <param name="At">When.</param>
/// <param name="Gated">Whether it needs the answer.</param>
public sealed record ChainStep(string Id, StepKind Kind, LocalDateTime At, bool Gated);

/// <summary>
/// The dated chain of one weekday of service or calving: service, first step, draw, dispatch, result, first gated step,
/// insemination (5.10).
/// </summary>
public sealed record CheckChain
{
    /// <summary>Service or calving.</summary>
    public required ChainFrom From { get; init; }

    /// <summary>For heifers.</summary>
    public bool Heifer { get; init; }

    /// <summary>Its weekday.</summary>
    public required IsoDayOfWeek Weekday { get; init; }

    /// <summary>Its date in the week checked.</summary>
    public required Day On { get; init; }

    /// <summary>The protocol.</summary>
    public required string Protocol { get; init; }

    /// <summary>The steps; empty where infeasible.</summary>
    public IReadOnlyList<ChainStep> Steps { get; init; } = [];

    /// <summary>First sampling day on which she may be bled.</summary>
    public Day? FirstDraw { get; init; }

    /// <summary>Last sampling day whose answer is back in time.</summary>
    public Day? LastDraw { get; init; }

    /// <summary>The day the last draw leaves.</summary>
    public Day? Dispatched { get; init; }

    /// <summary>When its answer is expected.</summary>
    public LocalDateTime? Result { get; init; }

    /// <summary>The first step that needs the answer.</summary>
    public ChainStep? FirstGated { get; init; }

    /// <summary>The insemination.</summary>
    public ChainStep? Insemination { get; init; }

    /// <summary>Days from service (or calving) to the insemination.</summary>
    public int? IntervalDays { get; init; }

    /// <summary>Days between the first and the last draw that serve the step.</summary>
    public int? SlackDays { get; init; }

    /// <summary>Start weekdays it slipped.</summary>
    public int Slips { get; init; }

    /// <summary>What is wrong.</summary>
    public IReadOnlyList<CheckFinding> Findings { get; init; } = [];
}

/// <summary>One finding of a chain.</summary>
/// <param name="Problem">What.</param>
/// <param name="Text">A plain sentence.</param>
/// <param name="Step">The step it is about; absent = the start.</param>
/// <param name="Suggestion">A change that mends it, proven by running the check on it; absent = none of those tried does.</param>
public sealed record CheckFinding(CheckProblem Problem, string Text, ChainStep? Step, CheckSuggestion? Suggestion);

/// <summary>A change that mends a finding.</summary>
/// <param name="Property">The property of the programme.</param>
/// <param name="Value">Its new value, as written in a programme.</param>
/// <param name="Text">A plain sentence.</param>
public sealed record CheckSuggestion(string Property, string Value, string Text);

/// <summary>A checked programme.</summary>
/// <param name="Chains">One chain for each weekday of service, of heifers where they have a protocol, and of calving where first service is by protocol.</param>
public sealed record CheckedProgramme(IReadOnlyList<CheckChain> Chains)
{
    /// <summary>Whether no chain is infeasible: an infeasible programme is saved only as a draft.</summary>
    public bool IsFeasible => Chains.All(c => c.Findings.All(f => f.Problem != CheckProblem.Infeasible));
}
