using NodaTime;
using ReproLink.Api.Explanations;
using ReproLink.Api.Facts;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Exchange.Messages;

/// <summary>What the standard has no word for.</summary>
public sealed record ExtensionContract
{
    /// <summary>The herd's own name of the animal.</summary>
    /// <example>1042</example>
    public string? Animal { get; init; }

    /// <summary>The fact it is now, as `GET /facts` lists it.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public string? FactId { get; init; }

    /// <summary>The herd's day it counts on.</summary>
    public LocalDate? Date { get; init; }

    /// <summary>The sire's breed.</summary>
    public string? SireBreed { get; init; }

    /// <summary>Age of the embryo in days.</summary>
    public int? EmbryoAgeDays { get; init; }

    /// <summary>The embryo's breed.</summary>
    public string? EmbryoBreed { get; init; }

    /// <summary>Whether an examination found the loss.</summary>
    public bool? Examined { get; init; }

    /// <summary>The class of what was given.</summary>
    [Words("gnrh", "pgf", "insert-in", "insert-out")]
    public string? Agent { get; init; }

    /// <summary>What a test said, as received or judged by the cut-offs; `recheck` is inconclusive.</summary>
    [Words("pregnant", "open", "recheck", "invalid")]
    public string? Outcome { get; init; }

    /// <summary>The measured value, as received.</summary>
    public double? Value { get; init; }

    /// <summary>Its unit, as received.</summary>
    public string? Unit { get; init; }

    /// <summary>The assay, as received.</summary>
    public string? Assay { get; init; }

    /// <summary>What was tested.</summary>
    public string? Specimen { get; init; }

    /// <summary>The tube.</summary>
    public string? Tube { get; init; }

    /// <summary>When the result was reported.</summary>
    public Instant? Reported { get; init; }

    /// <summary>What it decides about her today.</summary>
    [Words("open", "pregnant", "recheck", "nothing")]
    public string? Decides { get; init; }

    /// <summary>Why, by rule and fact.</summary>
    public IReadOnlyList<ReasonContract>? Reasons { get; init; }

    /// <summary>The service that dates the pregnancy it found.</summary>
    public CreditedContract? Service { get; init; }

    /// <summary>What is odd about it: it is stored all the same.</summary>
    public IReadOnlyList<WarningContract>? Warnings { get; init; }

    /// <summary>The status on the herd's today, in this service's words.</summary>
    /// <example>awaiting-test</example>
    public string? Status { get; init; }

    /// <summary>Earliest due day.</summary>
    public LocalDate? DueFrom { get; init; }

    /// <summary>Latest due day.</summary>
    public LocalDate? DueTo { get; init; }

    /// <summary>Dry-off day.</summary>
    public LocalDate? DryOff { get; init; }

    /// <summary>Calvings so far.</summary>
    public int? Parity { get; init; }

    /// <summary>Pen.</summary>
    public string? Pen { get; init; }
}

/// <summary>A service by its sender's id.</summary>
public sealed record CreditedContract
{
    /// <summary>Who sent it.</summary>
    /// <example>herd-app</example>
    public required string Source { get; init; }

    /// <summary>The sender's own id.</summary>
    /// <example>s-1</example>
    public required string SourceId { get; init; }

    /// <summary>Day 0.</summary>
    public required LocalDate Date { get; init; }
}
