using NodaTime;
using ReproLink.Api.Programmes;

namespace ReproLink.Api.Herds;

/// <summary>A location: what is sent to create or change it.</summary>
public sealed record HerdInput
{
    /// <summary>The herd's name, as people call it.</summary>
    /// <example>North Ridge</example>
    public required string Name { get; init; }

    /// <summary>Time zone of the IANA database in which the herd's days are counted.</summary>
    /// <example>America/Chicago</example>
    public required string TimeZone { get; init; }
}

/// <summary>A location and the herd kept at it.</summary>
public sealed record HerdAnswer
{
    /// <summary>The location's key.</summary>
    public required LocationAnswer Location { get; init; }

    /// <summary>The herd's name.</summary>
    /// <example>North Ridge</example>
    public required string Name { get; init; }

    /// <summary>Time zone of the IANA database.</summary>
    /// <example>America/Chicago</example>
    public required string TimeZone { get; init; }

    /// <summary>The herd's today.</summary>
    public required LocalDate Today { get; init; }

    /// <summary>What is on record.</summary>
    public required HerdCounts Counts { get; init; }

    /// <summary>When it was created.</summary>
    public required Instant Created { get; init; }

    /// <summary>When it was last changed.</summary>
    public required Instant Changed { get; init; }

    /// <summary>There while the herd has saved no programme and the defaults govern.</summary>
    public ProgrammeNote? Programme { get; init; }
}

/// <summary>A location's key.</summary>
public sealed record LocationAnswer
{
    /// <summary>The scheme.</summary>
    /// <example>farm</example>
    public required string Scheme { get; init; }

    /// <summary>The id in the scheme.</summary>
    /// <example>north-ridge</example>
    public required string Id { get; init; }
}

/// <summary>What is on record of a herd.</summary>
public sealed record HerdCounts
{
    /// <summary>Animals with at least one fact.</summary>
    /// <example>412</example>
    public required long Animals { get; init; }

    /// <summary>Facts that count.</summary>
    /// <example>4804</example>
    public required long Facts { get; init; }
}
