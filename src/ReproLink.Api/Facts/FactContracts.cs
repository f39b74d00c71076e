using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Facts;

/// <summary>
/// One fact. `sourceId`, `kind` and `animal` are required, `date` too except for the kinds animal and confirm; which
/// others may stand beside them hangs on the kind, and any that does not belong to it is refused by name.
/// </summary>
public sealed record FactInput
{
    /// <summary>The sender's own id; with `source` it identifies the fact.</summary>
    /// <example>s-1</example>
    public required string SourceId { get; init; }

    /// <summary>Who sends it; absent = the key's name.</summary>
    /// <example>herd-app</example>
    public string? Source { get; init; }

    /// <summary>What happened.</summary>
    /// <example>insemination</example>
    [Words("animal", "calving", "insemination", "natural-service", "embryo-transfer", "exposure", "oestrus", "loss", "treatment",
        "examination", "do-not-breed", "breed-again", "dry-off", "arrival", "departure", "sample", "confirm")]
    public required string Kind { get; init; }

    /// <summary>The herd's own name of the animal, kept as received. The first fact of an animal creates her.</summary>
    /// <example>1042</example>
    public required string Animal { get; init; }

    /// <summary>The day it happened: at most one day after the herd's today.</summary>
    public LocalDate? Date { get; init; }

    /// <summary>Local time, HH:mm; without one it counts from the start of the day.</summary>
    public LocalTime? Time { get; init; }

    /// <summary>animal: birth day.</summary>
    public LocalDate? Born { get; init; }

    /// <summary>animal: breed in plain words.</summary>
    /// <example>Holstein</example>
    public string? Breed { get; init; }

    /// <summary>animal: calvings so far, 0 to 30.</summary>
    /// <example>1</example>
    public int? Parity { get; init; }

    /// <summary>animal: pen.</summary>
    /// <example>4</example>
    public string? Pen { get; init; }

    /// <summary>animal: other identifiers. In CSV `scheme=id;scheme=id`.</summary>
    public IReadOnlyList<IdentifierContract>? Identifiers { get; init; }

    /// <summary>insemination, natural-service, embryo-transfer, exposure: the sire.</summary>
    /// <example>B77</example>
    public string? Sire { get; init; }

    /// <summary>insemination, natural-service, embryo-transfer, exposure: the sire's breed in plain words.</summary>
    /// <example>Angus</example>
    public string? SireBreed { get; init; }

    /// <summary>insemination, embryo-transfer: who did it.</summary>
    public string? Technician { get; init; }

    /// <summary>embryo-transfer: age of the embryo, 1 to 14 days; absent = 7.</summary>
    /// <example>7</example>
    public int? EmbryoAgeDays { get; init; }

    /// <summary>embryo-transfer: the embryo's breed in plain words.</summary>
    public string? EmbryoBreed { get; init; }

    /// <summary>exposure: last day with the bull; absent = he is still in.</summary>
    public LocalDate? Until { get; init; }

    /// <summary>loss: whether an examination found it; absent = false.</summary>
    public bool? Examined { get; init; }

    /// <summary>treatment: the agent's class.</summary>
    [Words("gnrh", "pgf", "insert-in", "insert-out")]
    public string? Agent { get; init; }

    /// <summary>treatment: true = the planned step was not done; absent = false.</summary>
    public bool? NotDone { get; init; }

    /// <summary>examination: how. In answers also the method of a result.</summary>
    [Words("blood", "milk", "ultrasound", "palpation")]
    public string? Method { get; init; }

    /// <summary>examination: what it says. In answers also the outcome of a result.</summary>
    [Words("pregnant", "open", "recheck", "invalid")]
    public string? Outcome { get; init; }

    /// <summary>examination: whether a corpus luteum was seen.</summary>
    public bool? CorpusLuteum { get; init; }

    /// <summary>examination: who examined her.</summary>
    public string? Examiner { get; init; }

    /// <summary>sample: what was taken.</summary>
    [Words("serum", "plasma", "whole-blood", "milk")]
    public string? Specimen { get; init; }

    /// <summary>sample: the tube it went into.</summary>
    /// <example>R12-003</example>
    public string? Tube { get; init; }

    /// <summary>confirm: the fact declared right. In CSV the columns `confirms.source` and `confirms.sourceId`.</summary>
    public ConfirmsContract? Confirms { get; init; }

    /// <summary>do-not-breed, departure, confirm, treatment not done: why.</summary>
    public string? Reason { get; init; }
}

/// <summary>An identifier in a named scheme.</summary>
public sealed record IdentifierContract
{
    /// <summary>The scheme.</summary>
    /// <example>us.bovine</example>
    public required string Scheme { get; init; }

    /// <summary>The id, kept as received.</summary>
    /// <example>840003123456789</example>
    public required string Id { get; init; }
}

/// <summary>The fact that a person declares right.</summary>
public sealed record ConfirmsContract
{
    /// <summary>Its source.</summary>
    /// <example>herd-app</example>
    public required string Source { get; init; }

    /// <summary>Its sourceId.</summary>
    /// <example>c-9</example>
    public required string SourceId { get; init; }
}
