using NodaTime;
using ReproLink.Api.Explanations;
using ReproLink.Api.Facts;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;

namespace ReproLink.Api.ReceivedResults;

/// <summary>One result. `animal` or `tube` says whose it is; when both are sent they are checked against each other.</summary>
public sealed record TestResultInput
{
    /// <summary>The sender's own id; with `source` it identifies the result.</summary>
    /// <example>lab-77-001</example>
    public required string SourceId { get; init; }

    /// <summary>Who sends it; absent = the key's name.</summary>
    /// <example>laboratory</example>
    public string? Source { get; init; }

    /// <summary>The herd's own name of the animal, or an identifier that only one animal carries.</summary>
    /// <example>1042</example>
    public string? Animal { get; init; }

    /// <summary>The tube, as a sample fact names it.</summary>
    /// <example>R12-003</example>
    public string? Tube { get; init; }

    /// <summary>The day the sample was taken, or she was examined: at most one day after the herd's today.</summary>
    public required LocalDate Sampled { get; init; }

    /// <summary>Local time of the sample, HH:mm.</summary>
    public LocalTime? Time { get; init; }

    /// <summary>When it was reported; absent = when it is recorded.</summary>
    public Instant? Reported { get; init; }

    /// <summary>How pregnancy was looked for; absent = blood.</summary>
    /// <example>blood</example>
    [Words("blood", "milk", "ultrasound", "palpation")]
    public string? Method { get; init; }

    /// <summary>What was tested; blood and milk only. Kept as received.</summary>
    /// <example>serum</example>
    public string? Specimen { get; init; }

    /// <summary>What it says; absent when value, unit and assay let the programme's cut-offs decide.</summary>
    /// <example>open</example>
    [Words("pregnant", "open", "recheck", "invalid")]
    public string? Outcome { get; init; }

    /// <summary>The measured value; blood and milk only. Kept as received.</summary>
    /// <example>0.12</example>
    public double? Value { get; init; }

    /// <summary>The value's unit. Another unit than the cut-offs' is never converted.</summary>
    /// <example>S-N</example>
    public string? Unit { get; init; }

    /// <summary>The assay. Another assay than the programme's is never converted.</summary>
    /// <example>herd-default</example>
    public string? Assay { get; init; }

    /// <summary>Ultrasound and palpation only: whether a corpus luteum was seen.</summary>
    public bool? CorpusLuteum { get; init; }

    /// <summary>Ultrasound and palpation only: who examined her.</summary>
    public string? Examiner { get; init; }
}

/// <summary>The answers to a batch of results, one an item, in the same order.</summary>
public sealed record TestResultAnswers
{
    /// <summary>The answers.</summary>
    public required IReadOnlyList<TestResultAnswer> Results { get; init; }
}

/// <summary>What became of one result.</summary>
public sealed record TestResultAnswer
{
    /// <summary>Its line in a CSV body, the header being line 1.</summary>
    /// <example>3</example>
    public int? Line { get; init; }

    /// <summary>The sender's own id; absent when it could not be read.</summary>
    /// <example>lab-77-001</example>
    public string? SourceId { get; init; }

    /// <summary>What became of it; a held result waits for a person, nothing is dropped.</summary>
    /// <example>accepted</example>
    [Words("accepted", "replaced", "duplicate", "held", "rejected")]
    public required string Status { get; init; }

    /// <summary>The fact's id; absent when held or rejected.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public string? FactId { get; init; }

    /// <summary>The animal it was tied to; absent when held or rejected.</summary>
    /// <example>1042</example>
    public string? Animal { get; init; }

    /// <summary>What it decides today.</summary>
    /// <example>open</example>
    [Words("open", "pregnant", "recheck", "nothing")]
    public string? Decides { get; init; }

    /// <summary>Why, by rule and fact.</summary>
    public IReadOnlyList<ReasonContract>? Reasons { get; init; }

    /// <summary>What is odd about it: it is stored all the same.</summary>
    public IReadOnlyList<WarningContract>? Warnings { get; init; }

    /// <summary>Held: its id.</summary>
    /// <example>h_0c5t9x2m7h1ka</example>
    public string? HeldId { get; init; }

    /// <summary>Held: why.</summary>
    /// <example>unknown-animal</example>
    [Words("unknown-animal", "unknown-tube", "tube-animal-mismatch", "no-sample-on-record", "ambiguous-identifier", "assay-unknown")]
    public string? Reason { get; init; }

    /// <summary>Why it was rejected: the first of `problems`.</summary>
    public ItemProblem? Problem { get; init; }

    /// <summary>Everything that is wrong with it.</summary>
    public IReadOnlyList<ItemProblem>? Problems { get; init; }
}
