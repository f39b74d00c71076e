using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Rounds;

/// <summary>A round to freeze: the day's bleed list, or the animals named.</summary>
public sealed record RoundInput
{
    /// <summary>The sampling day.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>The herd's own names of the animals; absent = the day's bleed list, without those that wait in another round of the day.</summary>
    public IReadOnlyList<string>? Animals { get; init; }

    /// <summary>What people call it.</summary>
    /// <example>Thursday, fresh pens</example>
    public string? Name { get; init; }

    /// <summary>What is drawn; absent = serum.</summary>
    /// <example>serum</example>
    [Words("serum", "plasma", "whole-blood", "milk")]
    public string? Specimen { get; init; }
}

/// <summary>A tube to add: for an animal, or in the place of another tube.</summary>
public sealed record TubeInput
{
    /// <summary>The animal; absent with `redraws`.</summary>
    /// <example>1042</example>
    public string? Animal { get; init; }

    /// <summary>The tube it takes the place of; that one is given up.</summary>
    /// <example>R12-003</example>
    public string? Redraws { get; init; }
}

/// <summary>What became of a tube.</summary>
public sealed record TubeMarkInput
{
    /// <summary>What became of it; `planned` takes back what was said.</summary>
    /// <example>drawn</example>
    [Words("planned", "drawn", "short", "not-drawn", "broken")]
    public required string State { get; init; }

    /// <summary>The day; absent = the day of the round.</summary>
    public LocalDate? Date { get; init; }

    /// <summary>Local time, HH:mm.</summary>
    public LocalTime? Time { get; init; }

    /// <summary>Who did it; absent = the key's name.</summary>
    /// <example>Ana</example>
    public string? By { get; init; }

    /// <summary>not-drawn only, and required there: why.</summary>
    [Words("not-found", "refused", "no-flow", "out-of-order", "ill", "gone", "other")]
    public string? Reason { get; init; }

    /// <summary>The state you last saw; when another is on record by now, nothing is recorded and the answer is 409. Absent = whatever it was.</summary>
    /// <example>planned</example>
    [Words("planned", "drawn", "short", "not-drawn", "broken")]
    public string? Was { get; init; }
}

/// <summary>Tubes that leave together.</summary>
public sealed record DispatchInput
{
    /// <summary>The tubes; absent = all of the round that hold blood and have not left.</summary>
    public IReadOnlyList<string>? Tubes { get; init; }

    /// <summary>When they leave; absent = now.</summary>
    public Instant? At { get; init; }

    /// <summary>Who sends them; absent = the key's name.</summary>
    /// <example>Ana</example>
    public string? By { get; init; }
}
