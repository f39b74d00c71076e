using NodaTime;
using ReproLink.Api.Intake;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Facts;

/// <summary>
/// How a sender's herd files are read: a line an animal with several dates, or a line an event with a word for what happened.
/// Headings and words are compared without case and the blanks around them.
/// </summary>
public record FactMappingInput : FileWriting
{
    /// <summary>What every fact of a line shares: `animal`, and where the file has them `date`, `time` and `sourceId` → the heading of their column.</summary>
    public required IReadOnlyDictionary<string, string> Columns { get; init; }

    /// <summary>The heading of the column that says what happened; absent = a line is read for every one of `facts`.</summary>
    /// <example>Event</example>
    public string? EventColumn { get; init; }

    /// <summary>The facts a line may give.</summary>
    public required IReadOnlyList<FactRule> Facts { get; init; }

    /// <summary>Words in the event column of lines that are left out on purpose. They are told in the answer.</summary>
    public IReadOnlyList<string>? LeaveOut { get; init; }

    /// <summary>What they write into a cell that says nothing, such as `-`.</summary>
    public IReadOnlyList<string>? Empty { get; init; }
}

/// <summary>
/// One fact a line may give. With an event column: when the line has one of `events`. Without: when one of its own `columns` says
/// something, or it has none.
/// </summary>
public sealed record FactRule
{
    /// <summary>The words in the event column that mean it.</summary>
    public IReadOnlyList<string>? Events { get; init; }

    /// <summary>What happened.</summary>
    /// <example>insemination</example>
    [Words("animal", "calving", "insemination", "natural-service", "embryo-transfer", "exposure", "oestrus", "loss", "treatment",
        "examination", "do-not-breed", "breed-again", "dry-off", "arrival", "departure", "sample")]
    public required string Kind { get; init; }

    /// <summary>Our property → the heading of their column; before those the line shares. An identifier is `identifiers.` and its scheme.</summary>
    public IReadOnlyDictionary<string, string>? Columns { get; init; }

    /// <summary>Our property → what it always is.</summary>
    public IReadOnlyDictionary<string, string>? Fixed { get; init; }

    /// <summary>Our property → their word → ours. Words that are not there are read as they stand.</summary>
    public IReadOnlyDictionary<string, IReadOnlyDictionary<string, string>>? Words { get; init; }
}

/// <summary>A mapping of herd files as saved.</summary>
public sealed record FactMappingAnswer : FactMappingInput
{
    /// <summary>The sender.</summary>
    /// <example>herd-book</example>
    public required string Sender { get; init; }

    /// <summary>Its version; every one is kept.</summary>
    /// <example>1</example>
    public required int Version { get; init; }

    /// <summary>When it was saved.</summary>
    public required Instant Saved { get; init; }

    /// <summary>By which key.</summary>
    /// <example>farm</example>
    public required string SavedBy { get; init; }
}
