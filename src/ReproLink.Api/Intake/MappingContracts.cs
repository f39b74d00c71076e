using NodaTime;

namespace ReproLink.Api.Intake;

/// <summary>How a sender's CSV files are read: which of their columns is which of our properties, and what their words mean.</summary>
public record MappingInput : FileWriting
{
    /// <summary>Our property → the heading of their column. Headings are compared without case and blanks around them; other columns are kept as received and not read.</summary>
    public required IReadOnlyDictionary<string, string> Columns { get; init; }

    /// <summary>Our property → what it always is, for what their files do not say.</summary>
    public IReadOnlyDictionary<string, string>? Fixed { get; init; }

    /// <summary>Their word → our outcome; compared without case and blanks around it. Our own words need no entry.</summary>
    public IReadOnlyDictionary<string, string>? Outcomes { get; init; }
}

/// <summary>A mapping as saved.</summary>
public sealed record MappingAnswer : MappingInput
{
    /// <summary>The sender.</summary>
    /// <example>valley-laboratory</example>
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
