using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Protocols;

/// <summary>A protocol of the herd's own, in the schema of the published ones. Read by hand; it stands here for the document.</summary>
public sealed record ProtocolInput
{
    /// <summary>Version of this schema: 1.</summary>
    /// <example>1</example>
    public required int Schema { get; init; }

    /// <summary>Its id, which no published protocol has.</summary>
    /// <example>north-ridge-56</example>
    public required string Id { get; init; }

    /// <summary>What people call it.</summary>
    /// <example>North Ridge 56</example>
    public required string Name { get; init; }

    /// <summary>The animals it is for.</summary>
    /// <example>dairy-cow</example>
    [Words("dairy-cow", "dairy-heifer", "beef-cow", "beef-heifer", "any")]
    public required string AnimalClass { get; init; }

    /// <summary>What it is for.</summary>
    /// <example>either</example>
    [Words("first-service", "resynchronisation", "either")]
    public required string Use { get; init; }

    /// <summary>The session of its first step; absent = morning.</summary>
    /// <example>morning</example>
    [Words("morning", "afternoon")]
    public string? StartSession { get; init; }

    /// <summary>A start of its own; absent = the programme's.</summary>
    public ProtocolStartAnswer? Start { get; init; }

    /// <summary>The steps, in order of time.</summary>
    public required IReadOnlyList<ProtocolStepInput> Steps { get; init; }

    /// <summary>Where it comes from.</summary>
    /// <example>order of the herd's veterinarian, 1 September 2026</example>
    public required string Source { get; init; }

    /// <summary>Digital object identifier of the source.</summary>
    public string? Doi { get; init; }

    /// <summary>How well the schedule is known.</summary>
    /// <example>common-practice</example>
    [Words("seen", "memory", "common-practice")]
    public required string Evidence { get; init; }

    /// <summary>What exactly was read, or recalled.</summary>
    public string? EvidenceDetail { get; init; }

    /// <summary>Notes.</summary>
    public string? Notes { get; init; }
}

/// <summary>One step of a protocol of the herd's own.</summary>
public sealed record ProtocolStepInput
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

    /// <summary>Whether the gate must be open for it; absent = no. Prostaglandin and inseminations must be gated.</summary>
    /// <example>true</example>
    public bool? Gated { get; init; }

    /// <summary>Hours by which it may come early.</summary>
    /// <example>24</example>
    public required int EarlyHours { get; init; }

    /// <summary>Hours by which it may come late.</summary>
    /// <example>24</example>
    public required int LateHours { get; init; }

    /// <summary>What happens past that; absent = lapse.</summary>
    /// <example>lapse</example>
    [Words("lapse", "skip", "alternative")]
    public string? IfLate { get; init; }

    /// <summary>True: the publication calls it optional.</summary>
    public bool? Optional { get; init; }

    /// <summary>True: an examination must have seen a corpus luteum; blood does not show one.</summary>
    public bool? NeedsCorpusLuteum { get; init; }
}
