using System.Globalization;
using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Figures;

/// <summary>Pregnant by days in milk: as if none had left, and with leaving as an outcome of its own.</summary>
internal sealed class SurvivalFigures(FigureQuestion question) : IFigures
{
    /// <summary>The days in milk that are told.</summary>
    public static readonly int[] Days = [80, 100, 150, 200, 250];

    private const string KaplanMeier = "Kaplan-Meier, log-log interval";
    private const string Incidence = "Aalen-Johansen, jackknife, log-log interval";

    private readonly List<FollowUp> _followed = [];
    private readonly Tally _survival = new(question.Detail == "days-to-pregnancy");
    private readonly Tally _incidence = new(question.Detail == "pregnant-or-gone");

    public void Add(LactationRecord lactation, IReadOnlyList<StepRecord> steps)
    {
        if (lactation.Calved is not { } calved || calved < question.From || calved > question.To)
        {
            return;
        }

        var (follow, _) = lactation.Follow();
        _followed.Add(follow);
        foreach (var tally in new[] { _survival, _incidence })
        {
            tally.Count(follow.End == FollowUpEnd.Event, lactation.Animal, calved, lactation.Log.Calving!.Id, follow.Days);
        }
    }

    public IEnumerable<Figure> Figures()
    {
        var curve = new SurvivalCurve(_followed);
        var incidence = new CumulativeIncidence(_followed);
        return
        [
            new(FigureBook.Get("days-to-pregnancy"), [Median(curve), .. Days.Select(d => PregnantBy(curve, d))])
            {
                Curve = [.. curve.Steps.Select(s => new CurvePoint(s.Days, s.AtRisk, 1 - s.Survival, Turn(s.Limits)))],
            },
            new(FigureBook.Get("pregnant-or-gone"), [.. Days.SelectMany(d => PregnantOrGone(incidence, d))]),
        ];
    }

    private FigureLine Median(SurvivalCurve curve)
    {
        var (low, high) = curve.QuantileLimits(0.5);
        return _survival.Finish(new FigureLine("median", "days by which half are pregnant", FigureUnit.Days, curve.Events, curve.Subjects)
        {
            Value = curve.Quantile(0.5),
            Limits = low is { } from && high is { } to ? new Interval(from, to) : null,
            Method = "median of Kaplan-Meier, log-log interval",
            NoValue = curve.Subjects > 0 ? "half were not reached" : null,
        });
    }

    private FigureLine PregnantBy(SurvivalCurve curve, int days)
    {
        var step = curve.On(days);
        var reached = _followed.Exists(f => f.Days >= days) || step is { Survival: <= 0 };
        return Line(Text(days), $"pregnant by {Text(days)} days in milk, if none had left", days, FollowUpEnd.Event) with
        {
            Value = reached ? 1 - (step?.Survival ?? 1) : null,
            Limits = reached ? Turn(step?.Limits) : null,
            Method = KaplanMeier,
            NoValue = reached ? null : NotReached(),
        };
    }

    private IEnumerable<FigureLine> PregnantOrGone(CumulativeIncidence incidence, int days)
    {
        var step = incidence.On(days);
        var reached = _followed.Exists(f => f.Days >= days);
        foreach (var (key, label, end, value, limits) in new[]
        {
            ("pregnant", "pregnant", FollowUpEnd.Event, step?.Event, step?.EventLimits),
            ("gone", "left or not to be bred", FollowUpEnd.Competing, step?.Competing, step?.CompetingLimits),
        })
        {
            yield return Line($"{Text(days)}-{key}", $"{label} by {Text(days)} days in milk", days, end) with
            {
                Value = reached ? value ?? 0 : null,
                Limits = reached ? limits : null,
                Method = Incidence,
                NoValue = reached ? null : NotReached(),
            };
        }
    }

    private FigureLine Line(string key, string label, int days, FollowUpEnd end) => new(
        key, label, FigureUnit.Share, _followed.Count(f => f.End == end && f.Days <= days), _followed.Count)
    {
        Method = KaplanMeier,
        Cases = _survival.Cases.Count > 0 ? _survival.Cases : _incidence.Cases,
    };

    private string NotReached() => _followed.Count == 0 ? "nothing to count" : "no cow was followed that long";

    private static Interval? Turn(Interval? of) => of is { } limits ? new Interval(1 - limits.High, 1 - limits.Low) : null;

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
