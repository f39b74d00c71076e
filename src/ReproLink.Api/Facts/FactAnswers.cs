using NodaTime;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Facts;

/// <summary>The answers to a batch of facts, one an item, in the same order.</summary>
public sealed record FactResults
{
    /// <summary>The answers.</summary>
    public required IReadOnlyList<FactResult> Results { get; init; }

    /// <summary>Of a file read by a mapping: lines that gave no fact, and why. Absent = none.</summary>
    public IReadOnlyList<LeftOutLine>? LeftOut { get; init; }

    /// <summary>Of a file read by a mapping: headings that nothing was read from. Absent = none.</summary>
    public IReadOnlyList<string>? UnreadColumns { get; init; }
}

/// <summary>A line of a file that gave no fact.</summary>
public sealed record LeftOutLine
{
    /// <summary>Its line, the header being line 1.</summary>
    /// <example>4</example>
    public required int Line { get; init; }

    /// <summary>Its text as received.</summary>
    /// <example>1043;Hoof trim;06/10/2026</example>
    public required string Text { get; init; }

    /// <summary>Why.</summary>
    /// <example>The mapping leaves out 'Hoof trim'.</example>
    public required string Reason { get; init; }
}

/// <summary>What became of one fact.</summary>
public sealed record FactResult
{
    /// <summary>Its line in a CSV, the header being line 1; a line of a mapped file may give several facts.</summary>
    /// <example>2</example>
    public int? Line { get; init; }

    /// <summary>The sender's own id; absent when it could not be read.</summary>
    /// <example>s-1</example>
    public string? SourceId { get; init; }

    /// <summary>What became of it.</summary>
    /// <example>accepted</example>
    [Words("accepted", "replaced", "duplicate", "rejected")]
    public required string Status { get; init; }

    /// <summary>The fact's id; absent when rejected.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public string? FactId { get; init; }

    /// <summary>What is odd about it: it is stored all the same. Absent when rejected.</summary>
    public IReadOnlyList<WarningContract>? Warnings { get; init; }

    /// <summary>Why it was rejected: the first of `problems`.</summary>
    public ItemProblem? Problem { get; init; }

    /// <summary>Everything that is wrong with it.</summary>
    public IReadOnlyList<ItemProblem>? Problems { get; init; }
}

/// <summary>Something odd about a fact that was stored.</summary>
public sealed record WarningContract
{
    /// <summary>The rule.</summary>
    /// <example>T7</example>
    public required string Rule { get; init; }

    /// <summary>A sentence.</summary>
    /// <example>A service after a pregnant test: nothing is decided until the next one.</example>
    public required string Text { get; init; }
}

/// <summary>A page of facts in the order they were recorded.</summary>
public sealed record FactPage
{
    /// <summary>The facts.</summary>
    public required IReadOnlyList<FactAnswer> Facts { get; init; }

    /// <summary>Send it as `after` to read on; absent at the end.</summary>
    public string? Next { get; init; }
}

/// <summary>A fact on record.</summary>
public sealed record FactAnswer
{
    /// <summary>Its id in the herd.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public required string FactId { get; init; }

    /// <summary>Who sent it.</summary>
    /// <example>herd-app</example>
    public required string Source { get; init; }

    /// <summary>The sender's own id.</summary>
    /// <example>s-1</example>
    public required string SourceId { get; init; }

    /// <summary>What happened; `result` for a test result.</summary>
    /// <example>insemination</example>
    public required string Kind { get; init; }

    /// <summary>The animal.</summary>
    /// <example>1042</example>
    public required string Animal { get; init; }

    /// <summary>The day it happened; of a result the sample day; absent on an undated card or confirmation.</summary>
    public LocalDate? Date { get; init; }

    /// <summary>Local time.</summary>
    public LocalTime? Time { get; init; }

    /// <summary>When the service recorded it.</summary>
    public required Instant RecordedAt { get; init; }

    /// <summary>Birth day.</summary>
    public LocalDate? Born { get; init; }

    /// <summary>Breed.</summary>
    public string? Breed { get; init; }

    /// <summary>Calvings so far.</summary>
    public int? Parity { get; init; }

    /// <summary>Pen.</summary>
    public string? Pen { get; init; }

    /// <summary>Other identifiers.</summary>
    public IReadOnlyList<IdentifierContract>? Identifiers { get; init; }

    /// <summary>The sire.</summary>
    public string? Sire { get; init; }

    /// <summary>The sire's breed.</summary>
    public string? SireBreed { get; init; }

    /// <summary>Who did it.</summary>
    public string? Technician { get; init; }

    /// <summary>Age of the embryo in days.</summary>
    public int? EmbryoAgeDays { get; init; }

    /// <summary>The embryo's breed.</summary>
    public string? EmbryoBreed { get; init; }

    /// <summary>Last day with the bull.</summary>
    public LocalDate? Until { get; init; }

    /// <summary>Whether an examination found the loss.</summary>
    public bool? Examined { get; init; }

    /// <summary>The agent's class.</summary>
    public string? Agent { get; init; }

    /// <summary>Whether the planned step was not done.</summary>
    public bool? NotDone { get; init; }

    /// <summary>How pregnancy was looked for.</summary>
    public string? Method { get; init; }

    /// <summary>The outcome as received.</summary>
    public string? Outcome { get; init; }

    /// <summary>Whether a corpus luteum was seen.</summary>
    public bool? CorpusLuteum { get; init; }

    /// <summary>Who examined her.</summary>
    public string? Examiner { get; init; }

    /// <summary>When the result was reported, as received.</summary>
    public Instant? Reported { get; init; }

    /// <summary>The measured value, as received.</summary>
    public double? Value { get; init; }

    /// <summary>Its unit, as received.</summary>
    public string? Unit { get; init; }

    /// <summary>The assay, as received.</summary>
    public string? Assay { get; init; }

    /// <summary>What was taken or tested.</summary>
    public string? Specimen { get; init; }

    /// <summary>The tube.</summary>
    public string? Tube { get; init; }

    /// <summary>In a timeline: the received lines a result came from; each is found under `/received`.</summary>
    public IReadOnlyList<Intake.ReceivedFromAnswer>? Received { get; init; }

    /// <summary>The fact declared right.</summary>
    public ConfirmsContract? Confirms { get; init; }

    /// <summary>Why.</summary>
    public string? Reason { get; init; }
}

/// <summary>Why a fact is withdrawn.</summary>
public sealed record WithdrawInput
{
    /// <summary>Why, in your words.</summary>
    /// <example>wrong cow</example>
    public required string Reason { get; init; }
}

/// <summary>A fact that was withdrawn.</summary>
public sealed record WithdrawAnswer
{
    /// <summary>The fact.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public required string FactId { get; init; }

    /// <summary>Always `withdrawn`.</summary>
    /// <example>withdrawn</example>
    public required string Status { get; init; }
}
