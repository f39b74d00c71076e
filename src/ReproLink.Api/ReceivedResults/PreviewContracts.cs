using System.Text.Json;

namespace ReproLink.Api.ReceivedResults;

/// <summary>What a batch of results would do; nothing of it is stored.</summary>
public sealed record PreviewAnswer
{
    /// <summary>How many lines would come to what.</summary>
    public required PreviewCounts Counts { get; init; }

    /// <summary>Line by line, in order.</summary>
    public required IReadOnlyList<PreviewLine> Lines { get; init; }
}

/// <summary>How many lines would come to what.</summary>
public sealed record PreviewCounts
{
    /// <summary>All lines.</summary>
    /// <example>4</example>
    public required int Received { get; init; }

    /// <summary>Would be accepted, replacing ones included.</summary>
    /// <example>2</example>
    public required int Accepted { get; init; }

    /// <summary>Are on record already.</summary>
    /// <example>1</example>
    public required int Duplicate { get; init; }

    /// <summary>Would be held.</summary>
    /// <example>1</example>
    public required int Held { get; init; }

    /// <summary>Would be rejected.</summary>
    /// <example>0</example>
    public required int Rejected { get; init; }
}

/// <summary>What one line would do.</summary>
public sealed record PreviewLine
{
    /// <summary>Its text as received.</summary>
    /// <example>77-001;1042;R12-003;08/10/2026;NOT PREG</example>
    public required string Text { get; init; }

    /// <summary>What was read from it.</summary>
    public required JsonElement Read { get; init; }

    /// <summary>The answer it would get, without ids.</summary>
    public required TestResultAnswer Result { get; init; }
}
