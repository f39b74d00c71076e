using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Rounds;

/// <summary>A page of rounds, the latest first.</summary>
public sealed record RoundPage
{
    /// <summary>The rounds, without their tubes.</summary>
    public required IReadOnlyList<RoundSummary> Rounds { get; init; }

    /// <summary>Send it as `after` to read on; absent at the end.</summary>
    public string? Next { get; init; }
}

/// <summary>A round at a glance.</summary>
public record RoundSummary
{
    /// <summary>Its name in addresses and on labels.</summary>
    /// <example>R12</example>
    public required string Round { get; init; }

    /// <summary>The sampling day.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>What people call it.</summary>
    /// <example>Thursday, fresh pens</example>
    public string? Name { get; init; }

    /// <summary>What is drawn.</summary>
    /// <example>serum</example>
    public required string Specimen { get; init; }

    /// <summary>Where it stands, by what happened to its tubes.</summary>
    /// <example>drawing</example>
    [Words("planned", "drawing", "drawn", "dispatched", "answered")]
    public required string State { get; init; }

    /// <summary>How many tubes are where.</summary>
    public required RoundCounts Counts { get; init; }

    /// <summary>When it was frozen.</summary>
    public required Instant Created { get; init; }

    /// <summary>By which key.</summary>
    /// <example>farm</example>
    public required string CreatedBy { get; init; }
}

/// <summary>A round with its tubes.</summary>
public sealed record RoundDetail : RoundSummary
{
    /// <summary>The herd's name.</summary>
    /// <example>North Ridge</example>
    public required string Herd { get; init; }

    /// <summary>Its tubes in the order of the list; late additions and second draws at the end.</summary>
    public required IReadOnlyList<TubeAnswer> Tubes { get; init; }

    /// <summary>What left, in order.</summary>
    public required IReadOnlyList<DispatchLine> Dispatches { get; init; }

    /// <summary>What to take along for the tubes still to be drawn.</summary>
    public required SuppliesAnswer Supplies { get; init; }

    /// <summary>The trade's practice, line by line with where it comes from.</summary>
    public required IReadOnlyList<ChecklistAnswer> Checklist { get; init; }
}

/// <summary>How many tubes of a round are where.</summary>
public sealed record RoundCounts
{
    /// <summary>All tubes.</summary>
    /// <example>12</example>
    public required int Tubes { get; init; }

    /// <summary>Still to be drawn.</summary>
    /// <example>2</example>
    public required int Planned { get; init; }

    /// <summary>With blood, short ones too.</summary>
    /// <example>9</example>
    public required int Drawn { get; init; }

    /// <summary>With less blood than wanted.</summary>
    /// <example>1</example>
    public required int Short { get; init; }

    /// <summary>Not drawn.</summary>
    /// <example>1</example>
    public required int NotDrawn { get; init; }

    /// <summary>Broken, lost or given up.</summary>
    /// <example>0</example>
    public required int Broken { get; init; }

    /// <summary>With blood and not yet dispatched.</summary>
    /// <example>9</example>
    public required int ToDispatch { get; init; }

    /// <summary>Answered by a result on record.</summary>
    /// <example>0</example>
    public required int Answered { get; init; }
}

/// <summary>A labelled tube.</summary>
public sealed record TubeAnswer
{
    /// <summary>What is printed on it; never used again in the herd.</summary>
    /// <example>R12-003</example>
    public required string Tube { get; init; }

    /// <summary>The animal it is labelled for.</summary>
    /// <example>1042</example>
    public required string Animal { get; init; }

    /// <summary>Her pen when the list was frozen.</summary>
    /// <example>4</example>
    public string? Pen { get; init; }

    /// <summary>What is known of it.</summary>
    /// <example>drawn</example>
    [Words("planned", "drawn", "short", "not-drawn", "broken")]
    public required string State { get; init; }

    /// <summary>What the sample is to answer; absent when she was picked without a need.</summary>
    /// <example>first-test</example>
    public string? Need { get; init; }

    /// <summary>Days post-service on the day of the round.</summary>
    /// <example>30</example>
    public int? DaysPostService { get; init; }

    /// <summary>The day of what became of it.</summary>
    public LocalDate? Date { get; init; }

    /// <summary>Local time of it.</summary>
    public LocalTime? Time { get; init; }

    /// <summary>Who did it.</summary>
    /// <example>Ana</example>
    public string? By { get; init; }

    /// <summary>Why nothing was drawn.</summary>
    [Words("not-found", "refused", "no-flow", "out-of-order", "ill", "gone", "other")]
    public string? Reason { get; init; }

    /// <summary>The tube it takes the place of.</summary>
    public string? Redraws { get; init; }

    /// <summary>The number of the dispatch it left with.</summary>
    /// <example>1</example>
    public int? Dispatch { get; init; }

    /// <summary>The day it left.</summary>
    public LocalDate? Dispatched { get; init; }

    /// <summary>True when it left more than 14 days after the draw: its result decides nothing.</summary>
    public bool? TooOld { get; init; }

    /// <summary>Its result on record.</summary>
    public TubeResult? Result { get; init; }
}

/// <summary>The result of a tube.</summary>
public sealed record TubeResult
{
    /// <summary>The fact.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public required string FactId { get; init; }

    /// <summary>The outcome as received; absent when only a value came.</summary>
    /// <example>open</example>
    public string? Outcome { get; init; }
}

/// <summary>A dispatch at a glance.</summary>
public sealed record DispatchLine
{
    /// <summary>Its number in the round.</summary>
    /// <example>1</example>
    public required int Dispatch { get; init; }

    /// <summary>When it left.</summary>
    public required Instant At { get; init; }

    /// <summary>Who sent it.</summary>
    /// <example>Ana</example>
    public required string By { get; init; }

    /// <summary>How many tubes.</summary>
    /// <example>9</example>
    public required int Tubes { get; init; }
}

/// <summary>What to take along.</summary>
public sealed record SuppliesAnswer
{
    /// <summary>Needles: one an animal, plus a tenth as spares, rounded up, at least two.</summary>
    /// <example>14</example>
    public required int Needles { get; init; }

    /// <summary>Tubes, with as many spares.</summary>
    /// <example>14</example>
    public required int Tubes { get; init; }

    /// <summary>Labels.</summary>
    /// <example>12</example>
    public required int Labels { get; init; }

    /// <summary>Closed containers for used needles.</summary>
    /// <example>1</example>
    public required int SharpsContainers { get; init; }
}

/// <summary>A line of the checklist.</summary>
public sealed record ChecklistAnswer
{
    /// <summary>The moment.</summary>
    /// <example>each-cow</example>
    [Words("before", "each-cow", "after")]
    public required string When { get; init; }

    /// <summary>What to do.</summary>
    /// <example>Label the tube before the next cow comes.</example>
    public required string Text { get; init; }

    /// <summary>Where it comes from.</summary>
    /// <example>common practice</example>
    public required string Basis { get; init; }
}

/// <summary>A tube after something was said of it.</summary>
public sealed record TubeMarkAnswer
{
    /// <summary>The tube.</summary>
    public required TubeAnswer Tube { get; init; }

    /// <summary>The next tube still to be drawn; absent = none.</summary>
    /// <example>R12-004</example>
    public string? Next { get; init; }

    /// <summary>Where the round stands.</summary>
    public required RoundCounts Counts { get; init; }

    /// <summary>What is odd about it: it is stored all the same.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}

/// <summary>Tubes that left.</summary>
public sealed record DispatchAnswer
{
    /// <summary>The round.</summary>
    /// <example>R12</example>
    public required string Round { get; init; }

    /// <summary>Number of the dispatch in the round.</summary>
    /// <example>1</example>
    public required int Dispatch { get; init; }

    /// <summary>When they left.</summary>
    public required Instant At { get; init; }

    /// <summary>Who sent them.</summary>
    /// <example>Ana</example>
    public required string By { get; init; }

    /// <summary>The tubes.</summary>
    public required IReadOnlyList<TubeAnswer> Tubes { get; init; }

    /// <summary>When the last of them is expected to be reported; absent when the programme leads to no day.</summary>
    public ExpectedReportAnswer? ExpectedReport { get; init; }

    /// <summary>What is wrong with their storage or their way.</summary>
    public required IReadOnlyList<string> Warnings { get; init; }
}

/// <summary>When a report is expected (rule L1).</summary>
public sealed record ExpectedReportAnswer
{
    /// <summary>The day.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>Local time.</summary>
    public required LocalTime Time { get; init; }
}
