using NodaTime;
using ReproLink.Api.Explanations;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Programmes;

namespace ReproLink.Api.Work;

/// <summary>The dated work of a period.</summary>
public sealed record WorkCalendarAnswer
{
    /// <summary>The herd's name.</summary>
    /// <example>North Ridge</example>
    public required string Herd { get; init; }

    /// <summary>The day it is made on.</summary>
    public required LocalDate AsOf { get; init; }

    /// <summary>The moment up to which facts are known.</summary>
    public required Instant KnownAt { get; init; }

    /// <summary>First day.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last day.</summary>
    public required LocalDate To { get; init; }

    /// <summary>The lines, by day, time, pen and animal.</summary>
    public required IReadOnlyList<WorkItemContract> Items { get; init; }

    /// <summary>The days with work.</summary>
    public required IReadOnlyList<WorkTotalContract> Totals { get; init; }

    /// <summary>Read before work with prostaglandin and needles.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }

    /// <summary>There while the herd has saved no programme and the defaults govern.</summary>
    public ProgrammeNote? Programme { get; init; }
}

/// <summary>One dated line of work.</summary>
public sealed record WorkItemContract
{
    /// <summary>Stable: the same work keeps its id when it is dated anew.</summary>
    /// <example>w_0c5t9x2m7h1ka</example>
    public required string Id { get; init; }

    /// <summary>The day.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>Wall-clock time; absent where the session is enough.</summary>
    public LocalTime? Time { get; init; }

    /// <summary>The session, where there is no time.</summary>
    /// <example>morning</example>
    [Words("morning", "afternoon")]
    public string? Session { get; init; }

    /// <summary>What it is.</summary>
    /// <example>step</example>
    [Words("draw", "resample", "examine", "step", "watch-oestrus", "dispatch", "result-expected", "confirmation", "dry-off", "calving-due", "alert")]
    public required string Kind { get; init; }

    /// <summary>The step.</summary>
    /// <example>pgf</example>
    [Words("gnrh", "pgf", "insert-in", "insert-out", "inseminate", "watch-oestrus")]
    public string? Step { get; init; }

    /// <summary>The animal; absent for a dispatch and for expected results.</summary>
    /// <example>1042</example>
    public string? Animal { get; init; }

    /// <summary>Her pen.</summary>
    /// <example>4</example>
    public string? Pen { get; init; }

    /// <summary>Its state.</summary>
    /// <example>conditional</example>
    [Words("firm", "conditional", "held", "awaiting-approval", "done", "missed", "cancelled")]
    public required string State { get; init; }

    /// <summary>The plan a step belongs to.</summary>
    public PlanLabelContract? Plan { get; init; }

    /// <summary>The gate's clause: why it is held, or what a conditional step hangs on.</summary>
    /// <example>not-open</example>
    [Words("held-result", "conflict", "recheck", "history-unknown", "not-covered", "not-open", "no-result-in-time", "awaiting-approval")]
    public string? Clause { get; init; }

    /// <summary>How many samples, for a dispatch and expected results.</summary>
    public int? Count { get; init; }

    /// <summary>True: outside working hours. It is never moved.</summary>
    public bool? OffHours { get; init; }

    /// <summary>True: not recorded, taken as done because it was due and released.</summary>
    public bool? Assumed { get; init; }

    /// <summary>True: past its last useful day.</summary>
    public bool? Overdue { get; init; }

    /// <summary>Why, by rule and fact.</summary>
    public required IReadOnlyList<ReasonContract> Reasons { get; init; }
}

/// <summary>Which plan a step belongs to.</summary>
public sealed record PlanLabelContract
{
    /// <summary>The protocol.</summary>
    /// <example>ovsynch-56</example>
    public required string Protocol { get; init; }

    /// <summary>Day 0 of the service, the last day with the bull, or the calving day.</summary>
    public required LocalDate Anchor { get; init; }

    /// <summary>The start day.</summary>
    public required LocalDate StartedOn { get; init; }
}

/// <summary>What one day asks for.</summary>
public sealed record WorkTotalContract
{
    /// <summary>The day.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>Animals handled.</summary>
    /// <example>9</example>
    public required int Animals { get; init; }

    /// <summary>Doses by agent class: firm and conditional steps ahead, on the day itself firm ones only.</summary>
    public required IReadOnlyDictionary<string, int> Doses { get; init; }

    /// <summary>Tubes.</summary>
    /// <example>0</example>
    public required int Tubes { get; init; }

    /// <summary>Needles: injections and draws.</summary>
    /// <example>9</example>
    public required int Needles { get; init; }
}
