using NodaTime;
using ReproLink.Api.Animals;
using ReproLink.Api.Facts;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Changes;

/// <summary>What changed, in the order in which it was stored.</summary>
public sealed record ChangePage
{
    /// <summary>The changes; empty at the end.</summary>
    public required IReadOnlyList<ChangeAnswer> Changes { get; init; }

    /// <summary>Every animal these changes are about, as she is now.</summary>
    public required IReadOnlyList<ChangedAnimal> Animals { get; init; }

    /// <summary>Send it as `after`, now or any time later.</summary>
    /// <example>p1f</example>
    public string? Next { get; init; }

    /// <summary>Cautions about prostaglandin.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>One change.</summary>
public sealed record ChangeAnswer
{
    /// <summary>Where a reader stands who has seen it: as good as `next`.</summary>
    /// <example>p1f</example>
    public required string Cursor { get; init; }

    /// <summary>What it was. After `herd`, `programme`, `approval`, `refusal` and `protocol` the answers about every animal may differ.</summary>
    /// <example>fact</example>
    [Words("herd", "fact", "withdrawal", "programme", "approval", "held", "held-end", "protocol", "round", "refusal")]
    public required string Kind { get; init; }

    /// <summary>When it was recorded.</summary>
    public required Instant At { get; init; }

    /// <summary>The animal; absent when it was about the herd.</summary>
    /// <example>1042</example>
    public string? Animal { get; init; }

    /// <summary>fact: the fact.</summary>
    public FactAnswer? Fact { get; init; }

    /// <summary>withdrawal: the fact that no longer counts. held-end: the fact it became.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public string? FactId { get; init; }

    /// <summary>held, held-end: the held result.</summary>
    /// <example>h_0c5t9x2m7h1ka</example>
    public string? HeldId { get; init; }

    /// <summary>withdrawal and held: why. held-end: how it ended.</summary>
    /// <example>unknown-animal</example>
    public string? Reason { get; init; }

    /// <summary>programme, approval, refusal: the version. round: its number.</summary>
    /// <example>3</example>
    public int? Number { get; init; }
}

/// <summary>An animal as she is now.</summary>
public sealed record ChangedAnimal
{
    /// <summary>The animal.</summary>
    /// <example>1042</example>
    public required string Animal { get; init; }

    /// <summary>Her status on the herd's today; absent when nothing of her counts any more.</summary>
    /// <example>awaiting-test</example>
    public string? Status { get; init; }

    /// <summary>What each of her results decides.</summary>
    public required IReadOnlyList<DecidedResult> Results { get; init; }

    /// <summary>Her plan.</summary>
    public required IReadOnlyList<PlanStepAnswer> Plan { get; init; }
}

/// <summary>What a result decides.</summary>
public sealed record DecidedResult
{
    /// <summary>The result.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public required string FactId { get; init; }

    /// <summary>What it decides.</summary>
    /// <example>open</example>
    [Words("open", "pregnant", "recheck", "nothing")]
    public required string Decides { get; init; }
}
