using NodaTime;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Programmes;

namespace ReproLink.Api.Figures;

/// <summary>A herd's figures for a period.</summary>
public sealed record FiguresAnswer
{
    /// <summary>The herd's name.</summary>
    /// <example>North Ridge</example>
    public required string Herd { get; init; }

    /// <summary>The day they are made on.</summary>
    public required LocalDate AsOf { get; init; }

    /// <summary>The moment whose knowledge they rest on, as asked; absent = what is known now.</summary>
    public Instant? KnownAt { get; init; }

    /// <summary>First day of the period; the first 21-day cycle begins on it.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last day of the period.</summary>
    public required LocalDate To { get; init; }

    /// <summary>The waiting period in days: as asked, else the programme's.</summary>
    /// <example>60</example>
    public required int WaitingPeriod { get; init; }

    /// <summary>There while the herd has saved no programme and the defaults govern.</summary>
    public ProgrammeNote? Programme { get; init; }

    /// <summary>The figures.</summary>
    public required IReadOnlyList<FigureAnswer> Figures { get; init; }

    /// <summary>What everybody must know who handles what the steps name.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>One figure.</summary>
public sealed record FigureAnswer
{
    /// <summary>Its id.</summary>
    /// <example>conception-risk</example>
    public required string Figure { get; init; }

    /// <summary>Its name.</summary>
    /// <example>Conception risk</example>
    public required string Name { get; init; }

    /// <summary>The part of the report it stands in.</summary>
    [Words("services", "cycles", "lactations", "tests", "work")]
    public required string Section { get; init; }

    /// <summary>The id of its rule: figures made by different rules are never compared.</summary>
    /// <example>A</example>
    public required string Rule { get; init; }

    /// <summary>Numerator and denominator in words.</summary>
    public required string Definition { get; init; }

    /// <summary>What it is easily mistaken for.</summary>
    public required string Trap { get; init; }

    /// <summary>Its values.</summary>
    public required IReadOnlyList<FigureLineAnswer> Lines { get; init; }

    /// <summary>The curve behind it; absent = none.</summary>
    public IReadOnlyList<FigurePointAnswer>? Curve { get; init; }
}

/// <summary>One value.</summary>
public sealed record FigureLineAnswer
{
    /// <summary>Its key within the figure.</summary>
    /// <example>all</example>
    public required string Line { get; init; }

    /// <summary>The same in words.</summary>
    /// <example>all services</example>
    public required string Label { get; init; }

    /// <summary>`share`: 0 to 1. `days`: a mean (or a named median) of days. `ratio`: so many for each. `kappa`: −1 to 1.</summary>
    [Words("share", "days", "ratio", "kappa")]
    public required string Unit { get; init; }

    /// <summary>Numerator; of a mean, the sum of days.</summary>
    /// <example>38</example>
    public required int Numerator { get; init; }

    /// <summary>Denominator; of a mean, how many.</summary>
    /// <example>97</example>
    public required int Denominator { get; init; }

    /// <summary>The value; absent = there is none, `noValue` says why.</summary>
    /// <example>0.3918</example>
    public double? Value { get; init; }

    /// <summary>Why there is no value.</summary>
    /// <example>nothing to count</example>
    public string? NoValue { get; init; }

    /// <summary>Middle value, of days.</summary>
    public double? Median { get; init; }

    /// <summary>95 % interval; absent = none can be given.</summary>
    public IntervalAnswer? Interval { get; init; }

    /// <summary>How value and interval were made.</summary>
    /// <example>Wilson score interval</example>
    public required string Method { get; init; }

    /// <summary>Too recent for its outcomes to be known: in no total. Absent = it is not.</summary>
    public bool? Pending { get; init; }

    /// <summary>What was not counted, by reason.</summary>
    public required IReadOnlyList<LeftOutAnswer> LeftOut { get; init; }
}

/// <summary>A 95 % interval.</summary>
public sealed record IntervalAnswer
{
    /// <summary>Lower limit.</summary>
    /// <example>0.3005</example>
    public required double Low { get; init; }

    /// <summary>Upper limit.</summary>
    /// <example>0.4912</example>
    public required double High { get; init; }
}

/// <summary>How many were not counted for one reason.</summary>
public sealed record LeftOutAnswer
{
    /// <summary>The reason.</summary>
    /// <example>no-answer-yet</example>
    public required string Reason { get; init; }

    /// <summary>The reason in words.</summary>
    /// <example>served, no answer yet</example>
    public required string Text { get; init; }

    /// <summary>How many.</summary>
    /// <example>12</example>
    public required int Count { get; init; }
}

/// <summary>A point of a curve.</summary>
public sealed record FigurePointAnswer
{
    /// <summary>Days.</summary>
    /// <example>101</example>
    public required int Days { get; init; }

    /// <summary>Still followed.</summary>
    /// <example>40</example>
    public required int AtRisk { get; init; }

    /// <summary>Share that had the event by then.</summary>
    /// <example>0.5846</example>
    public required double Value { get; init; }

    /// <summary>Its 95 % interval.</summary>
    public IntervalAnswer? Interval { get; init; }
}

/// <summary>The animals behind one figure.</summary>
public sealed record FigureAnimalsAnswer
{
    /// <summary>The figure.</summary>
    /// <example>conception-risk</example>
    public required string Figure { get; init; }

    /// <summary>First day of the period.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last day of the period.</summary>
    public required LocalDate To { get; init; }

    /// <summary>The day it is made on.</summary>
    public required LocalDate AsOf { get; init; }

    /// <summary>The moment whose knowledge it rests on, as asked; absent = what is known now.</summary>
    public Instant? KnownAt { get; init; }

    /// <summary>The animals, line by line.</summary>
    public required IReadOnlyList<FigureAnimalAnswer> Animals { get; init; }

    /// <summary>What everybody must know who handles what the steps name.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>How one animal counted in one line.</summary>
public sealed record FigureAnimalAnswer
{
    /// <summary>The line.</summary>
    /// <example>all</example>
    public required string Line { get; init; }

    /// <summary>The herd's own name of her.</summary>
    /// <example>1042</example>
    public required string Animal { get; init; }

    /// <summary>The day it is about: service, sample, calving, planned step, or first day of the cycle.</summary>
    public required LocalDate Date { get; init; }

    /// <summary>`numerator`: in both. `denominator`: in the denominator only. `left-out`: in neither.</summary>
    [Words("numerator", "denominator", "left-out")]
    public required string Counts { get; init; }

    /// <summary>Why she was left out.</summary>
    /// <example>no-answer-yet</example>
    public string? Reason { get; init; }

    /// <summary>Days, where days are counted.</summary>
    public int? Days { get; init; }

    /// <summary>The fact it rests on.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public string? Fact { get; init; }
}
