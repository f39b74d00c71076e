using NodaTime;
using ReproLink.Api.Accuracy;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.WhatIf;

/// <summary>Programmes side by side.</summary>
public sealed record WhatIfAnswer
{
    /// <summary>The herd's name.</summary>
    /// <example>North Ridge</example>
    public required string Herd { get; init; }

    /// <summary>The day it is made on.</summary>
    public required LocalDate AsOf { get; init; }

    /// <summary>First day of the services the herd's own rates count.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last day of those services: outcomes of later ones are not known yet.</summary>
    public required LocalDate To { get; init; }

    /// <summary>The herd's own rates, used where none was given.</summary>
    public required IReadOnlyList<RateAnswer> Rates { get; init; }

    /// <summary>The programmes in the order asked.</summary>
    public required IReadOnlyList<ProgrammeFiguresAnswer> Programmes { get; init; }

    /// <summary>What it supposes: a herd can differ from each.</summary>
    public required IReadOnlyList<string> Assumptions { get; init; }

    /// <summary>What everybody must know who handles prostaglandin or needles.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>One rate of the herd.</summary>
public sealed record RateAnswer
{
    /// <summary>Its name in `rates`.</summary>
    /// <example>pregnantLater</example>
    [Words("firstServiceDays", "pregnantFirst", "pregnantLater", "returns", "loss", "inconclusive")]
    public required string Rate { get; init; }

    /// <summary>What is counted.</summary>
    /// <example>second and later services</example>
    public required string Label { get; init; }

    /// <summary>The rate.</summary>
    public required EstimateContract Value { get; init; }

    /// <summary>How value and limits were made.</summary>
    /// <example>Wilson score interval</example>
    public required string Method { get; init; }

    /// <summary>The figure it is a line of; absent = none.</summary>
    /// <example>conception-risk</example>
    public string? Figure { get; init; }

    /// <summary>How many were left out.</summary>
    /// <example>12</example>
    public required int LeftOut { get; init; }
}

/// <summary>One programme: what it was reckoned with, its course and its figures.</summary>
public sealed record ProgrammeFiguresAnswer
{
    /// <summary>What you call it.</summary>
    /// <example>Laboratory four days slower</example>
    public required string Name { get; init; }

    /// <summary>What differs from the first, by how much and why; empty for the first.</summary>
    public required IReadOnlyList<string> Sentences { get; init; }

    /// <summary>The inputs.</summary>
    public required WhatIfInputsAnswer Inputs { get; init; }

    /// <summary>What becomes of a service on each weekday, from the programme check.</summary>
    public required IReadOnlyList<CourseAnswer> Course { get; init; }

    /// <summary>The figures.</summary>
    public required IReadOnlyList<WhatIfFigureAnswer> Figures { get; init; }

    /// <summary>Share pregnant by days in milk, every ten days.</summary>
    public required IReadOnlyList<CurvePointAnswer> Curve { get; init; }
}

/// <summary>What a programme was reckoned with.</summary>
public sealed record WhatIfInputsAnswer
{
    /// <summary>Days from calving to first service.</summary>
    public required EstimateContract FirstServiceDays { get; init; }

    /// <summary>Share of first services pregnant at the test day.</summary>
    public required EstimateContract PregnantFirst { get; init; }

    /// <summary>Share of later services pregnant at the test day.</summary>
    public required EstimateContract PregnantLater { get; init; }

    /// <summary>Share of failed services served again before the test.</summary>
    public required EstimateContract Returns { get; init; }

    /// <summary>Share of pregnancies lost from test to confirmation.</summary>
    public required EstimateContract Loss { get; init; }

    /// <summary>Chance that prostaglandin ends a pregnancy.</summary>
    public required EstimateContract PregnancyEnds { get; init; }

    /// <summary>The test's sensitivity.</summary>
    public required EstimateContract Sensitivity { get; init; }

    /// <summary>The test's specificity.</summary>
    public required EstimateContract Specificity { get; init; }

    /// <summary>Share of inconclusive results.</summary>
    public required EstimateContract Inconclusive { get; init; }

    /// <summary>Whether a second sample decides before treatment.</summary>
    public required bool SecondSample { get; init; }

    /// <summary>The study the test's rates come from; absent = given.</summary>
    /// <example>mayo-2016-plasma</example>
    public string? Study { get; init; }
}

/// <summary>What becomes of a service on one weekday when it fails; days from that service.</summary>
public sealed record CourseAnswer
{
    /// <summary>Weekday of the service.</summary>
    /// <example>thursday</example>
    public required string Weekday { get; init; }

    /// <summary>First draw.</summary>
    /// <example>28</example>
    public required int Test { get; init; }

    /// <summary>Next service when the first test says open.</summary>
    /// <example>35</example>
    public required int NextServiceIfOpen { get; init; }

    /// <summary>Next service when a second sample decides.</summary>
    /// <example>49</example>
    public required int NextServiceAfterSecondSample { get; init; }

    /// <summary>Confirmation.</summary>
    /// <example>74</example>
    public required int Confirmation { get; init; }

    /// <summary>Next service when only the confirmation finds her open.</summary>
    /// <example>98</example>
    public required int NextServiceIfFoundLate { get; init; }

    /// <summary>Start weekdays slipped.</summary>
    /// <example>0</example>
    public required int Slips { get; init; }

    /// <summary>True: no start leaves a draw in time, the plan waits for the answer.</summary>
    public bool? WaitsForAnswer { get; init; }
}

/// <summary>One figure of a programme, per pregnancy kept.</summary>
public sealed record WhatIfFigureAnswer
{
    /// <summary>Which.</summary>
    /// <example>days-open</example>
    [Words(
        "days-open", "services", "tests", "confirmations", "pregnancies-ended", "gnrh", "pgf", "inserts",
        "pregnant-by-100", "pregnant-by-150", "pregnant-by-200", "not-pregnant-at-end", "money")]
    public required string Figure { get; init; }

    /// <summary>What it is counted in.</summary>
    /// <example>days</example>
    [Words("days", "each", "of 100", "doses", "share", "money")]
    public required string Unit { get; init; }

    /// <summary>The figure.</summary>
    public required EstimateContract Value { get; init; }

    /// <summary>The figure less the first programme's, with limits of its own; absent for the first.</summary>
    public EstimateContract? FromFirst { get; init; }
}

/// <summary>Share pregnant by a day.</summary>
public sealed record CurvePointAnswer
{
    /// <summary>Days in milk.</summary>
    /// <example>150</example>
    public required int Day { get; init; }

    /// <summary>Share pregnant by then.</summary>
    /// <example>0.71</example>
    public required double Value { get; init; }

    /// <summary>Lower limit; absent = none is known.</summary>
    /// <example>0.66</example>
    public double? Low { get; init; }

    /// <summary>Upper limit; absent = none is known.</summary>
    /// <example>0.76</example>
    public double? High { get; init; }
}
