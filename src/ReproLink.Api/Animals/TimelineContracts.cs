using NodaTime;
using ReproLink.Api.Explanations;
using ReproLink.Api.Facts;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Programmes;

namespace ReproLink.Api.Animals;

/// <summary>One animal's story.</summary>
public sealed record TimelineAnswer
{
    /// <summary>The herd's own name of her.</summary>
    /// <example>1042</example>
    public required string Animal { get; init; }

    /// <summary>Facts after this day do not count.</summary>
    public required LocalDate AsOf { get; init; }

    /// <summary>The moment whose knowledge it rests on.</summary>
    public required Instant KnownAt { get; init; }

    /// <summary>Her status at the end of `asOf`.</summary>
    /// <example>awaiting-test</example>
    public required string Status { get; init; }

    /// <summary>Whether her card is on record.</summary>
    public required bool Registered { get; init; }

    /// <summary>Her facts in the order in which they are folded.</summary>
    public required IReadOnlyList<FactAnswer> Facts { get; init; }

    /// <summary>Each change of her status.</summary>
    public required IReadOnlyList<StatusAnswer> Statuses { get; init; }

    /// <summary>What each result and examination decided.</summary>
    public required IReadOnlyList<JudgementAnswer> Results { get; init; }

    /// <summary>What is odd about her facts.</summary>
    public required IReadOnlyList<ReasonContract> Warnings { get; init; }

    /// <summary>The contradictions that are open.</summary>
    public required IReadOnlyList<ReasonContract> Conflicts { get; init; }

    /// <summary>The steps planned for her that were not cancelled.</summary>
    public required IReadOnlyList<PlanStepAnswer> Plan { get; init; }

    /// <summary>The dates of her pregnancy.</summary>
    public PregnancyAnswer? Pregnancy { get; init; }

    /// <summary>There while the herd has saved no programme and the defaults govern.</summary>
    public ProgrammeNote? Programme { get; init; }

    /// <summary>What everybody must know who handles the drugs.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>A status from a day on.</summary>
public sealed record StatusAnswer
{
    /// <summary>The day.</summary>
    public required LocalDate From { get; init; }

    /// <summary>The status.</summary>
    /// <example>awaiting-test</example>
    public required string Status { get; init; }

    /// <summary>The fact that changed it.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public required string Fact { get; init; }
}

/// <summary>What a result or examination decided.</summary>
public sealed record JudgementAnswer
{
    /// <summary>The result.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public required string Fact { get; init; }

    /// <summary>What it decided.</summary>
    [Words("open", "pregnant", "recheck", "nothing")]
    public required string Decides { get; init; }

    /// <summary>The outcome it was judged as, by outcome and value; absent = none could be told.</summary>
    [Words("pregnant", "open", "recheck", "invalid")]
    public string? Outcome { get; init; }

    /// <summary>Why.</summary>
    public required IReadOnlyList<ReasonContract> Reasons { get; init; }
}
