using NodaTime;
using ReproLink.Api.Programmes;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Figures;
using ReproLink.Records;
using Interval = ReproLink.Calendar.Figures.Statistics.Interval;

namespace ReproLink.Api.Figures;

internal static class FigureMapping
{
    public static FiguresAnswer Answer(HerdView view, FigureSet set, Instant? knownAt) => new()
    {
        Herd = view.Herd.Name,
        AsOf = set.AsOf.Date,
        KnownAt = knownAt,
        From = set.Question.From.Date,
        To = set.Question.To.Date,
        WaitingPeriod = set.WaitingPeriod,
        Programme = ProgrammeNote.Of(view.Rules.HasSavedProgramme),
        Figures = [.. set.Figures.Select(Figure)],
        Cautions = Cautions.All,
    };

    public static FigureAnimalsAnswer Animals(FigureSet set, Figure figure, string? line, Instant? knownAt) => new()
    {
        Figure = figure.Id,
        From = set.Question.From.Date,
        To = set.Question.To.Date,
        AsOf = set.AsOf.Date,
        KnownAt = knownAt,
        Animals = [.. figure.Lines.Where(l => line is null || l.Key == line).SelectMany(l => l.Cases.Select(c => Animal(l, c)))],
        Cautions = Cautions.All,
    };

    private static FigureAnswer Figure(Figure figure) => new()
    {
        Figure = figure.Id,
        Name = figure.Definition.Name,
        Section = figure.Definition.Section.ToString().ToLowerInvariant(),
        Rule = figure.Definition.Rule,
        Definition = figure.Definition.Sentence,
        Trap = figure.Definition.Trap,
        Lines = [.. figure.Lines.Select(Line)],
        Curve = figure.Curve.Count == 0 ? null : [.. figure.Curve.Select(Point)],
    };

    private static FigureLineAnswer Line(FigureLine line) => new()
    {
        Line = line.Key,
        Label = line.Label,
        Unit = line.Unit.ToString().ToLowerInvariant(),
        Numerator = line.Numerator,
        Denominator = line.Denominator,
        Value = line.Value,
        NoValue = line.NoValue,
        Median = line.Median,
        Interval = Limits(line.Limits),
        Method = line.Method,
        Pending = line.Pending ? true : null,
        LeftOut = [.. line.LeftOut.Select(l => new LeftOutAnswer { Reason = LeftOutWords.Of(l.Reason), Text = LeftOutWords.Sentence(l.Reason), Count = l.Count })],
    };

    private static FigurePointAnswer Point(CurvePoint point) => new()
    {
        Days = point.Days,
        AtRisk = point.AtRisk,
        Value = point.Value,
        Interval = Limits(point.Limits),
    };

    private static IntervalAnswer? Limits(Interval? of) => of is { } limits ? new IntervalAnswer { Low = limits.Low, High = limits.High } : null;

    private static FigureAnimalAnswer Animal(FigureLine line, FigureCase one) => new()
    {
        Line = line.Key,
        Animal = one.Animal,
        Date = one.Day.Date,
        Counts = one.Part switch
        {
            CasePart.Counted => "numerator",
            CasePart.NotCounted => "denominator",
            _ => "left-out",
        },
        Reason = one.Reason is { } reason ? LeftOutWords.Of(reason) : null,
        Days = one.Days,
        Fact = one.Fact?.ToString(),
    };
}
