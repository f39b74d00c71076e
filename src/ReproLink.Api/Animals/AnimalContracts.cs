using NodaTime;
using ReproLink.Api.Explanations;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Programmes;

namespace ReproLink.Api.Animals;

/// <summary>One animal's answer on one day.</summary>
public sealed record TestWindowAnswer
{
    /// <summary>The herd's own name of her.</summary>
    /// <example>1042</example>
    public required string Animal { get; init; }

    /// <summary>The day asked about.</summary>
    public required LocalDate On { get; init; }

    /// <summary>Facts after this day do not count.</summary>
    public required LocalDate AsOf { get; init; }

    /// <summary>The moment whose knowledge it rests on.</summary>
    public required Instant KnownAt { get; init; }

    /// <summary>Her status at the end of `asOf`.</summary>
    /// <example>awaiting-test</example>
    [Words("not-served", "awaiting-test", "pregnant", "pregnant-caution", "open", "recheck", "conflict", "do-not-breed", "left")]
    public required string Status { get; init; }

    /// <summary>Whether she may be bled; absent = she left the herd.</summary>
    /// <example>not-yet</example>
    [Words("eligible", "not-yet", "not-needed", "blocked")]
    public string? Answer { get; init; }

    /// <summary>The reason, of a closed list; of `eligible`, the need.</summary>
    /// <example>T1</example>
    public string? Reason { get; init; }

    /// <summary>What a sample would be for; absent = nothing.</summary>
    /// <example>first-test</example>
    [Words("first-test", "resample", "resolve-conflict", "caution-retest", "confirmation")]
    public string? Need { get; init; }

    /// <summary>Whether the window is past.</summary>
    public required bool Overdue { get; init; }

    /// <summary>Her window; absent = no need, or none with a window.</summary>
    public WindowContract? Window { get; init; }

    /// <summary>The next day on which answer, need or overdue differ with the facts as they are; absent = never.</summary>
    public LocalDate? ChangesOn { get; init; }

    /// <summary>Why.</summary>
    public required IReadOnlyList<ReasonContract> Reasons { get; init; }

    /// <summary>Every bound that was weighed for the first day; the latest binds.</summary>
    public required IReadOnlyList<CandidateAnswer> Candidates { get; init; }

    /// <summary>What the wanted and the last useful day come from.</summary>
    public required IReadOnlyList<CandidateAnswer> Limits { get; init; }

    /// <summary>Whether drugs that need an open cow are let through at the end of `asOf`, by step.</summary>
    public required GateAnswer Gate { get; init; }

    /// <summary>The steps planned for her that were not cancelled.</summary>
    public required IReadOnlyList<PlanStepAnswer> Plan { get; init; }

    /// <summary>The dates of her pregnancy; absent = none stands, or its age is not known.</summary>
    public PregnancyAnswer? Pregnancy { get; init; }

    /// <summary>There while the herd has saved no programme and the defaults govern.</summary>
    public ProgrammeNote? Programme { get; init; }

    /// <summary>What everybody must know who handles the drugs.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>One dated bound of a window.</summary>
public sealed record CandidateAnswer
{
    /// <summary>The rule.</summary>
    /// <example>T1</example>
    public required string Rule { get; init; }

    /// <summary>What it bounds.</summary>
    /// <example>opens</example>
    [Words("opens", "target", "closes")]
    public required string Bound { get; init; }

    /// <summary>The day.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>A sentence.</summary>
    /// <example>28 days after the service of 10 September 2026</example>
    public required string Text { get; init; }

    /// <summary>The facts it rests on.</summary>
    public required IReadOnlyList<string> Facts { get; init; }
}

/// <summary>The gate, by step.</summary>
public sealed record GateAnswer
{
    /// <summary>Prostaglandin.</summary>
    public required GateStepAnswer Pgf { get; init; }
}

/// <summary>Whether a step is let through.</summary>
public sealed record GateStepAnswer
{
    /// <summary>Whether it is.</summary>
    public required bool Allowed { get; init; }

    /// <summary>The first clause that closes the gate.</summary>
    /// <example>not-open</example>
    [Words("held-result", "conflict", "recheck", "history-unknown", "not-covered", "not-open", "no-result-in-time", "awaiting-approval")]
    public string? Clause { get; init; }

    /// <summary>The clause in a sentence.</summary>
    /// <example>she is not known to be open</example>
    public string? Text { get; init; }
}

/// <summary>One planned step.</summary>
public sealed record PlanStepAnswer
{
    /// <summary>What is done.</summary>
    /// <example>pgf</example>
    [Words("gnrh", "pgf", "insert-in", "insert-out", "inseminate", "watch-oestrus")]
    public required string Step { get; init; }

    /// <summary>When.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>Local time.</summary>
    public required LocalTime Time { get; init; }

    /// <summary>Its state.</summary>
    /// <example>conditional</example>
    [Words("firm", "conditional", "held", "awaiting-approval", "done", "missed", "cancelled")]
    public required string State { get; init; }

    /// <summary>Why it is held, or what it hangs on.</summary>
    public string? Clause { get; init; }
}

/// <summary>The dates of a pregnancy.</summary>
public sealed record PregnancyAnswer
{
    /// <summary>Day 0; of two possible services or days with a bull, the earlier.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Due.</summary>
    public required LocalDate Due { get; init; }

    /// <summary>Earliest due day.</summary>
    public required LocalDate DueFrom { get; init; }

    /// <summary>Latest due day.</summary>
    public required LocalDate DueTo { get; init; }

    /// <summary>Dry-off day; absent for heifers.</summary>
    public LocalDate? DryOff { get; init; }
}
