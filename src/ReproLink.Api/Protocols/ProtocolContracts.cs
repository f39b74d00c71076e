using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Protocols;

/// <summary>The protocols a herd may choose from.</summary>
public sealed record ProtocolList
{
    /// <summary>Published ones by id, then the herd's own.</summary>
    public required IReadOnlyList<ProtocolAnswer> Protocols { get; init; }

    /// <summary>Read before work with prostaglandin and needles.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>A sequence of steps with its source. Agents by active class; product and dose stand on the veterinarian's order.</summary>
public sealed record ProtocolAnswer
{
    /// <summary>Its id.</summary>
    /// <example>ovsynch-56</example>
    public required string Id { get; init; }

    /// <summary>Its published name.</summary>
    /// <example>Ovsynch-56</example>
    public required string Name { get; init; }

    /// <summary>The animals it is for.</summary>
    /// <example>dairy-cow</example>
    [Words("dairy-cow", "dairy-heifer", "beef-cow", "beef-heifer", "any")]
    public required string AnimalClass { get; init; }

    /// <summary>What it is for.</summary>
    /// <example>either</example>
    [Words("first-service", "resynchronisation", "either")]
    public required string Use { get; init; }

    /// <summary>True: the herd added it.</summary>
    public bool? Own { get; init; }

    /// <summary>Whether a programme may choose it: a schedule that was only recalled waits for a veterinarian.</summary>
    public required bool Selectable { get; init; }

    /// <summary>Who answered for a schedule that was only recalled.</summary>
    public ProtocolConfirmed? Confirmed { get; init; }

    /// <summary>Whether it may start before the result is known.</summary>
    public required bool MayStartBeforeResult { get; init; }

    /// <summary>The start published with it; absent = the programme's.</summary>
    public ProtocolStartAnswer? Start { get; init; }

    /// <summary>The session of its first step.</summary>
    /// <example>morning</example>
    [Words("morning", "afternoon")]
    public required string StartSession { get; init; }

    /// <summary>The steps, in order of time.</summary>
    public required IReadOnlyList<ProtocolStepAnswer> Steps { get; init; }

    /// <summary>Where it was published.</summary>
    public required string Source { get; init; }

    /// <summary>Digital object identifier of the source.</summary>
    public string? Doi { get; init; }

    /// <summary>How well the schedule is known to us.</summary>
    /// <example>seen</example>
    [Words("seen", "memory", "common-practice")]
    public required string Evidence { get; init; }

    /// <summary>What exactly was read, or recalled.</summary>
    public string? EvidenceDetail { get; init; }

    /// <summary>Notes.</summary>
    public string? Notes { get; init; }
}

/// <summary>The start published with a protocol.</summary>
public sealed record ProtocolStartAnswer
{
    /// <summary>Before or at the result.</summary>
    /// <example>before-result</example>
    [Words("before-result", "at-result")]
    public required string Rule { get; init; }

    /// <summary>Days after service.</summary>
    /// <example>25</example>
    public int? Day { get; init; }
}

/// <summary>One step.</summary>
public sealed record ProtocolStepAnswer
{
    /// <summary>Its id in the protocol.</summary>
    /// <example>pgf-1</example>
    public required string Id { get; init; }

    /// <summary>What is done.</summary>
    /// <example>pgf</example>
    [Words("gnrh", "pgf", "insert-in", "insert-out", "inseminate", "watch-oestrus")]
    public required string Kind { get; init; }

    /// <summary>The step it is counted from; absent = the start.</summary>
    /// <example>gnrh-1</example>
    public string? Anchor { get; init; }

    /// <summary>Days from it: the same wall clock on a later date.</summary>
    /// <example>7</example>
    public int? Days { get; init; }

    /// <summary>Elapsed hours from it, across clock changes.</summary>
    public int? Hours { get; init; }

    /// <summary>Whether the gate must be open for it.</summary>
    public required bool Gated { get; init; }

    /// <summary>Hours by which it may come early.</summary>
    /// <example>24</example>
    public required int EarlyHours { get; init; }

    /// <summary>Hours by which it may come late.</summary>
    /// <example>24</example>
    public required int LateHours { get; init; }

    /// <summary>What happens past that.</summary>
    /// <example>lapse</example>
    [Words("lapse", "skip", "alternative")]
    public required string IfLate { get; init; }

    /// <summary>True: the publication calls it optional.</summary>
    public bool? Optional { get; init; }

    /// <summary>True: an examination must have seen a corpus luteum; blood does not show one.</summary>
    public bool? NeedsCorpusLuteum { get; init; }
}

/// <summary>A veterinarian's word for a schedule that was only recalled.</summary>
public sealed record ProtocolConfirmed
{
    /// <summary>The key.</summary>
    /// <example>veterinarian</example>
    public required string By { get; init; }

    /// <summary>When.</summary>
    public required Instant At { get; init; }
}
