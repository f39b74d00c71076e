using NodaTime;
using ReproLink.Api.Explanations;
using ReproLink.Api.Facts;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Programmes;

namespace ReproLink.Api.Bleeding;

/// <summary>Which animals to bleed in a period, day by day, and every other animal counted once.</summary>
public sealed record BleedListAnswer
{
    /// <summary>The herd's name.</summary>
    /// <example>North Ridge</example>
    public required string Herd { get; init; }

    /// <summary>The day it is made on; days before it list nothing.</summary>
    public required LocalDate AsOf { get; init; }

    /// <summary>The moment whose knowledge it rests on.</summary>
    public required Instant KnownAt { get; init; }

    /// <summary>First day asked about.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last day asked about.</summary>
    public required LocalDate To { get; init; }

    /// <summary>The pen asked about; absent = all.</summary>
    /// <example>4</example>
    public string? Pen { get; init; }

    /// <summary>There while the herd has saved no programme and the defaults govern.</summary>
    public ProgrammeNote? Programme { get; init; }

    /// <summary>The sampling days with animals.</summary>
    public required IReadOnlyList<BleedDayAnswer> Days { get; init; }

    /// <summary>The others, under one answer and reason each.</summary>
    public required IReadOnlyList<NotListedAnswer> NotListed { get; init; }

    /// <summary>What everybody must know who handles what is on the list.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>One sampling day.</summary>
public sealed record BleedDayAnswer
{
    /// <summary>The day.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>Its weekday.</summary>
    /// <example>thursday</example>
    public required string Weekday { get; init; }

    /// <summary>The animals by pen and name.</summary>
    public required IReadOnlyList<BleedAnimalAnswer> Animals { get; init; }

    /// <summary>What to take along.</summary>
    public required BleedTotals Totals { get; init; }
}

/// <summary>What to take along on a sampling day.</summary>
public sealed record BleedTotals
{
    /// <summary>Animals.</summary>
    /// <example>1</example>
    public required int Animals { get; init; }

    /// <summary>Tubes: one an animal.</summary>
    /// <example>1</example>
    public required int Tubes { get; init; }

    /// <summary>Labels: one a tube.</summary>
    /// <example>1</example>
    public required int Labels { get; init; }

    /// <summary>Needles: one an animal and a tenth to spare, at least two.</summary>
    /// <example>3</example>
    public required int Needles { get; init; }
}

/// <summary>One animal on a sampling day.</summary>
public sealed record BleedAnimalAnswer
{
    /// <summary>The herd's own name of her.</summary>
    /// <example>1042</example>
    public required string Animal { get; init; }

    /// <summary>Her pen.</summary>
    /// <example>4</example>
    public string? Pen { get; init; }

    /// <summary>Other identifiers she carries.</summary>
    public required IReadOnlyList<IdentifierContract> Identifiers { get; init; }

    /// <summary>Days after the service that counts; absent while the bull is in.</summary>
    /// <example>28</example>
    public int? DaysPostService { get; init; }

    /// <summary>Days in milk; absent without a calving on record.</summary>
    /// <example>99</example>
    public int? DaysInMilk { get; init; }

    /// <summary>Calvings; absent = not known.</summary>
    /// <example>1</example>
    public int? Parity { get; init; }

    /// <summary>What the sample is for.</summary>
    /// <example>first-test</example>
    [Words("first-test", "resample", "resolve-conflict", "caution-retest", "confirmation")]
    public required string Need { get; init; }

    /// <summary>Her window.</summary>
    public WindowContract? Window { get; init; }

    /// <summary>Whether the window is past.</summary>
    public required bool Overdue { get; init; }

    /// <summary>There when the daily limit moved her to this day.</summary>
    public bool? Moved { get; init; }

    /// <summary>The step that hangs on the result.</summary>
    public ServesAnswer? Serves { get; init; }

    /// <summary>Why.</summary>
    public required IReadOnlyList<ReasonContract> Reasons { get; init; }
}

/// <summary>A step that hangs on a result.</summary>
public sealed record ServesAnswer
{
    /// <summary>What is done.</summary>
    /// <example>pgf</example>
    [Words("gnrh", "pgf", "insert-in", "insert-out", "inseminate", "watch-oestrus")]
    public required string Step { get; init; }

    /// <summary>When.</summary>
    public required LocalDate Date { get; init; }
}

/// <summary>Animals that are not listed, under one answer and reason.</summary>
public sealed record NotListedAnswer
{
    /// <summary>The answer.</summary>
    /// <example>not-yet</example>
    [Words("not-yet", "not-needed", "blocked")]
    public required string Answer { get; init; }

    /// <summary>The reason, of a closed list.</summary>
    /// <example>T1</example>
    public required string Reason { get; init; }

    /// <summary>How many.</summary>
    /// <example>14</example>
    public required int Count { get; init; }

    /// <summary>Which; with `detail=all` only.</summary>
    public IReadOnlyList<NotListedAnimal>? Animals { get; init; }
}

/// <summary>An animal that is not listed.</summary>
public sealed record NotListedAnimal
{
    /// <summary>The herd's own name of her.</summary>
    /// <example>1043</example>
    public required string Animal { get; init; }

    /// <summary>Her pen.</summary>
    public string? Pen { get; init; }

    /// <summary>Her status.</summary>
    /// <example>awaiting-test</example>
    public required string Status { get; init; }
}
