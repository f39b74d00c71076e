using System.Text.Json;
using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.HeldResults;

/// <summary>A page of held results, the latest first.</summary>
public sealed record HeldPage
{
    /// <summary>The held results.</summary>
    public required IReadOnlyList<HeldAnswer> Held { get; init; }

    /// <summary>Send it as `after` to read on; absent at the end.</summary>
    public string? Next { get; init; }
}

/// <summary>A result that could not be tied to one animal and sample.</summary>
public sealed record HeldAnswer
{
    /// <summary>Its id.</summary>
    /// <example>h_0c5t9x2m7h1ka</example>
    public required string HeldId { get; init; }

    /// <summary>Who sent it.</summary>
    /// <example>valley-laboratory</example>
    public required string Source { get; init; }

    /// <summary>The sender's own id.</summary>
    /// <example>77-002</example>
    public required string SourceId { get; init; }

    /// <summary>Why it is held.</summary>
    /// <example>tube-animal-mismatch</example>
    [Words("unknown-animal", "unknown-tube", "tube-animal-mismatch", "no-sample-on-record", "ambiguous-identifier", "assay-unknown")]
    public required string Reason { get; init; }

    /// <summary>The same in a sentence.</summary>
    /// <example>The label of the tube is another animal's than the one named.</example>
    public required string Text { get; init; }

    /// <summary>When it was received.</summary>
    public required Instant Received { get; init; }

    /// <summary>What it says, as received or as read by its sender's mapping.</summary>
    public required JsonElement Content { get; init; }

    /// <summary>The animals whose prostaglandin gate it closes.</summary>
    public required IReadOnlyList<string> Closes { get; init; }

    /// <summary>Whose it may be, the likeliest first.</summary>
    public required IReadOnlyList<HeldCandidateAnswer> Candidates { get; init; }

    /// <summary>How it ended; absent while it waits.</summary>
    public HeldEndAnswer? Ended { get; init; }
}

/// <summary>An animal that a held result may be of.</summary>
public sealed record HeldCandidateAnswer
{
    /// <summary>The animal.</summary>
    /// <example>1042</example>
    public required string Animal { get; init; }

    /// <summary>Her pen.</summary>
    /// <example>4</example>
    public string? Pen { get; init; }

    /// <summary>Why it may be hers.</summary>
    public required IReadOnlyList<string> Reasons { get; init; }
}

/// <summary>How a held result ended.</summary>
public sealed record HeldEndAnswer
{
    /// <summary>How.</summary>
    /// <example>assigned</example>
    [Words("released", "assigned", "dismissed", "replaced")]
    public required string Ending { get; init; }

    /// <summary>Who ended it; the source, when it ended by itself.</summary>
    /// <example>farm</example>
    public required string By { get; init; }

    /// <summary>When.</summary>
    public required Instant At { get; init; }

    /// <summary>Why, in that person's words.</summary>
    public string? Note { get; init; }

    /// <summary>The fact it became.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public string? FactId { get; init; }
}

/// <summary>Whose result it is.</summary>
public sealed record AssignInput
{
    /// <summary>The herd's own name of the animal.</summary>
    /// <example>1042</example>
    public required string Animal { get; init; }

    /// <summary>The tube it was in; absent = the one it names. Its label must not be another animal's.</summary>
    /// <example>R12-003</example>
    public string? Tube { get; init; }

    /// <summary>The sample day; absent = the one it names.</summary>
    public LocalDate? Sampled { get; init; }

    /// <summary>What it says, where it came without an outcome and its value cannot be judged.</summary>
    /// <example>open</example>
    [Words("pregnant", "open", "recheck", "invalid")]
    public string? Outcome { get; init; }
}

/// <summary>Why a held result is set aside or taken up again.</summary>
public sealed record HeldReasonInput
{
    /// <summary>Why, in your words.</summary>
    /// <example>not our herd</example>
    public required string Reason { get; init; }
}

/// <summary>A held result after a decision.</summary>
public sealed record HeldDecisionAnswer
{
    /// <summary>Its id; after reopening, the new one.</summary>
    /// <example>h_0c5t9x2m7h1ka</example>
    public required string HeldId { get; init; }

    /// <summary>What was decided.</summary>
    [Words("assigned", "dismissed", "reopened")]
    public required string Status { get; init; }

    /// <summary>assigned: the animal.</summary>
    /// <example>1042</example>
    public string? Animal { get; init; }

    /// <summary>assigned: the fact it became.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public string? FactId { get; init; }

    /// <summary>assigned: what it decides today.</summary>
    [Words("open", "pregnant", "recheck", "nothing")]
    public string? Decides { get; init; }
}
