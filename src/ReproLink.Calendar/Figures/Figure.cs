using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Figures;

/// <summary>What is asked of a herd's figures.</summary>
/// <param name="From">First day of the period; the first 21-day cycle begins on it.</param>
/// <param name="To">Last day of the period.</param>
public sealed record FigureQuestion(Day From, Day To)
{
    /// <summary>Days from calving before which no cow is meant to be served; absent = the programme's, else <see cref="UsualWaitingPeriod"/>.</summary>
    public int? WaitingPeriod { get; init; }

    /// <summary>The figure whose animals are wanted; absent = none: they are counted, not named.</summary>
    public string? Detail { get; init; }

    /// <summary>Common practice where the programme names no waiting period; stated with the figures.</summary>
    public const int UsualWaitingPeriod = 60;
}

/// <summary>A herd's figures for a period.</summary>
/// <param name="Question">What was asked.</param>
/// <param name="AsOf">The day they are made on.</param>
/// <param name="WaitingPeriod">The waiting period of the programme in force on the last day, in days.</param>
/// <param name="Figures">The figures, in the order of <see cref="FigureBook.All"/>.</param>
public sealed record FigureSet(FigureQuestion Question, Day AsOf, int WaitingPeriod, IReadOnlyList<Figure> Figures)
{
    /// <summary>A figure by its id.</summary>
    /// <exception cref="InvalidOperationException">There is no such figure.</exception>
    public Figure this[string id] => Figures.First(f => f.Id == id);
}

/// <summary>One figure: a definition, and a value for each of its lines.</summary>
/// <param name="Definition">What it is.</param>
/// <param name="Lines">Its lines; the first is that of the whole where there is one.</param>
public sealed record Figure(FigureDefinition Definition, IReadOnlyList<FigureLine> Lines)
{
    /// <summary>Its id, e.g. <c>conception-risk</c>.</summary>
    public string Id => Definition.Id;

    /// <summary>The curve behind it, for a plot; empty = none.</summary>
    public IReadOnlyList<CurvePoint> Curve { get; init; } = [];

    /// <summary>A line by its key; null = there is none.</summary>
    public FigureLine? Line(string key) => Lines.FirstOrDefault(l => l.Key == key);
}

/// <summary>What a value is counted in.</summary>
public enum FigureUnit
{
    /// <summary>A share from 0 to 1: numerator of denominator.</summary>
    Share = 1,

    /// <summary>A mean of days: numerator = their sum, denominator = how many.</summary>
    Days = 2,

    /// <summary>A ratio that is no share: numerator for each of the denominator.</summary>
    Ratio = 3,

    /// <summary>Agreement beyond chance, −1 to 1: numerator = agreeing, denominator = judged by both.</summary>
    Kappa = 4,
}

/// <summary>One value of a figure, never without what it is out of.</summary>
/// <param name="Key">Names it within the figure, e.g. <c>all</c>.</param>
/// <param name="Label">The same in words.</param>
/// <param name="Unit">What it is counted in.</param>
/// <param name="Numerator">Numerator.</param>
/// <param name="Denominator">Denominator.</param>
public sealed record FigureLine(string Key, string Label, FigureUnit Unit, int Numerator, int Denominator)
{
    /// <summary>The value; null = there is none, and <see cref="NoValue"/> says why.</summary>
    public double? Value { get; init; }

    /// <summary>Middle value of days.</summary>
    public double? Median { get; init; }

    /// <summary>95 % interval; absent = none can be given.</summary>
    public Interval? Limits { get; init; }

    /// <summary>How value and interval were made.</summary>
    public required string Method { get; init; }

    /// <summary>Why there is no value; null = there is one.</summary>
    public string? NoValue { get; init; }

    /// <summary>Too recent for its outcomes to be known: shown, in no total.</summary>
    public bool Pending { get; init; }

    /// <summary>What was not counted, by reason.</summary>
    public IReadOnlyList<LeftOut> LeftOut { get; init; } = [];

    /// <summary>The animals behind it, where they were asked for.</summary>
    public IReadOnlyList<FigureCase> Cases { get; init; } = [];
}

/// <summary>How many were not counted for one reason.</summary>
/// <param name="Reason">The reason.</param>
/// <param name="Count">How many.</param>
public readonly record struct LeftOut(LeftOutReason Reason, int Count);

/// <summary>One animal behind a value.</summary>
/// <param name="Animal">The herd's own name of her.</param>
/// <param name="Day">The day it is about: service, sample, calving or planned step.</param>
/// <param name="Part">How it counted.</param>
public readonly record struct FigureCase(string Animal, Day Day, CasePart Part)
{
    /// <summary>The fact it rests on.</summary>
    public FactId? Fact { get; init; }

    /// <summary>Days, where days are counted.</summary>
    public int? Days { get; init; }

    /// <summary>Why it was left out.</summary>
    public LeftOutReason? Reason { get; init; }
}

/// <summary>How an animal counted.</summary>
public enum CasePart
{
    /// <summary>In numerator and denominator.</summary>
    Counted = 1,

    /// <summary>In the denominator only.</summary>
    NotCounted = 2,

    /// <summary>In neither.</summary>
    LeftOut = 3,
}

/// <summary>A point of a curve.</summary>
/// <param name="Days">The day.</param>
/// <param name="AtRisk">Still followed.</param>
/// <param name="Value">Share that had the event by then.</param>
/// <param name="Limits">Its interval.</param>
public readonly record struct CurvePoint(int Days, int AtRisk, double Value, Interval? Limits);
