using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Intake;

/// <summary>A page of received lines, in the order in which they came.</summary>
public sealed record ReceivedPage
{
    /// <summary>The lines.</summary>
    public required IReadOnlyList<ReceivedLineAnswer> Lines { get; init; }

    /// <summary>Send it as `after` to read on; absent at the end.</summary>
    public string? Next { get; init; }
}

/// <summary>A line as received, and what became of it.</summary>
public sealed record ReceivedLineAnswer
{
    /// <summary>Number of the batch it came in.</summary>
    /// <example>17</example>
    public required long Batch { get; init; }

    /// <summary>Its place in the batch, from 1.</summary>
    /// <example>2</example>
    public required int Item { get; init; }

    /// <summary>Its line in a CSV file, the header being line 1; absent for an item of a JSON list.</summary>
    /// <example>3</example>
    public int? Line { get; init; }

    /// <summary>The file it came in, as the caller named it.</summary>
    /// <example>results-1009.csv</example>
    public string? File { get; init; }

    /// <summary>Who it comes from.</summary>
    /// <example>valley-laboratory</example>
    public required string Sender { get; init; }

    /// <summary>The key that sent it.</summary>
    /// <example>farm</example>
    public required string SentBy { get; init; }

    /// <summary>When it was received.</summary>
    public required Instant At { get; init; }

    /// <summary>The form of the batch.</summary>
    /// <example>text/csv</example>
    public required string MediaType { get; init; }

    /// <summary>The header line of its file.</summary>
    /// <example>Lab no;Cow;Tube;Drawn;Result</example>
    public string? Header { get; init; }

    /// <summary>Its text as received.</summary>
    /// <example>77-001;1042;R12-003;08/10/2026;NOT PREG</example>
    public required string Text { get; init; }

    /// <summary>The sender's id read from it.</summary>
    /// <example>77-001</example>
    public string? SourceId { get; init; }

    /// <summary>What became of it.</summary>
    /// <example>accepted</example>
    [Words("accepted", "replaced", "duplicate", "held", "rejected")]
    public required string Decision { get; init; }

    /// <summary>Why it was held or rejected.</summary>
    /// <example>unknown-animal</example>
    public string? Why { get; init; }

    /// <summary>The fact it became, or was a duplicate of.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public string? FactId { get; init; }

    /// <summary>The held result it became.</summary>
    /// <example>h_0c5t9x2m7h1ka</example>
    public string? HeldId { get; init; }
}

/// <summary>Where a result came from.</summary>
public sealed record ReceivedFromAnswer
{
    /// <summary>Number of the batch.</summary>
    /// <example>17</example>
    public required long Batch { get; init; }

    /// <summary>Its place in the batch, from 1.</summary>
    /// <example>2</example>
    public required int Item { get; init; }

    /// <summary>Its line in a CSV file.</summary>
    /// <example>3</example>
    public int? Line { get; init; }

    /// <summary>The file.</summary>
    /// <example>results-1009.csv</example>
    public string? File { get; init; }

    /// <summary>Who it comes from.</summary>
    /// <example>valley-laboratory</example>
    public required string Sender { get; init; }

    /// <summary>When it was received.</summary>
    public required Instant At { get; init; }
}
