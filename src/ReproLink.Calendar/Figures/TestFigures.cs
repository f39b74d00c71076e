using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Figures;

/// <summary>What blood and milk tests said by days post-service, how many were inconclusive, and what became of those.</summary>
internal sealed class TestFigures(FigureQuestion question) : IFigures
{
    /// <summary>Classes of days post-service.</summary>
    private static readonly (string Key, int From, int To)[] Classes =
        [("before-28", 0, 27), ("28-31", 28, 31), ("32-35", 32, 35), ("36-45", 36, 45), ("46-73", 46, 73), ("74-120", 74, 120), ("over-120", 121, int.MaxValue)];

    private static readonly Outcome[] Outcomes = [Outcome.Pregnant, Outcome.Open, Outcome.Recheck, Outcome.Invalid];

    private static readonly (string Key, string Label)[] Ends =
    [
        ("pregnant", "then pregnant"), ("open", "then open"), ("calved", "then calved"), ("served", "served again before an answer"), ("left", "left before an answer"),
        ("undecided", "not decided yet"),
    ];

    private readonly List<(int Class, Outcome Outcome, FigureCase Case)> _results = [];
    private readonly Tally _inconclusive = new(question.Detail == "inconclusive");
    private readonly List<(string End, FigureCase Case)> _became = [];

    public void Add(LactationRecord lactation, IReadOnlyList<StepRecord> steps)
    {
        for (var i = 0; i < lactation.Log.Results.Count; i++)
        {
            var judged = lactation.Log.Results[i];
            if (judged.Fact is not TestResult result || judged.Outcome is not { } outcome || result.Day < question.From || result.Day > question.To)
            {
                continue;
            }

            var one = new FigureCase(lactation.Animal, result.Day, CasePart.Counted) { Fact = result.Id };
            if (DaysPostService(lactation, result.Day) is { } days)
            {
                _results.Add((Array.FindIndex(Classes, c => days <= c.To), outcome, one with { Days = days }));
            }

            if (outcome == Outcome.Invalid)
            {
                _inconclusive.LeaveOut(LeftOutReason.NoYesOrNo, lactation.Animal, result.Day, result.Id);
                continue;
            }

            _inconclusive.Count(outcome == Outcome.Recheck, lactation.Animal, result.Day, result.Id);
            if (outcome == Outcome.Recheck)
            {
                _became.Add((EndOf(lactation, i), one));
            }
        }
    }

    public IEnumerable<Figure> Figures() =>
    [
        new(FigureBook.Get("outcomes-by-day"), [.. Classes.SelectMany((c, i) => OfClass(c.Key, i))]),
        new(FigureBook.Get("inconclusive"), [_inconclusive.Share("all", "inconclusive tests")]),
        new(FigureBook.Get("inconclusive-became"), [.. Ends.Select(e => Became(e.Key, e.Label))]),
    ];

    /// <summary>Days from the latest service on or before a day; null = none.</summary>
    public static int? DaysPostService(LactationRecord lactation, Day day)
    {
        var service = lactation.Services.FindLast(s => s.Day <= day);
        return service is null ? null : day - service.Day;
    }

    private IEnumerable<FigureLine> OfClass(string key, int which)
    {
        foreach (var outcome in Outcomes)
        {
            var tally = new Tally(question.Detail == "outcomes-by-day");
            foreach (var (place, said, what) in _results)
            {
                if (place == which)
                {
                    tally.Count(said == outcome, what.Animal, what.Day, what.Fact, what.Days);
                }
            }

            yield return tally.Share($"{key}-{Word(outcome)}", $"{key.Replace('-', which is 0 or 6 ? ' ' : '-')} days post-service: {Words(outcome)}");
        }
    }

    private FigureLine Became(string key, string label)
    {
        var tally = new Tally(question.Detail == "inconclusive-became");
        foreach (var (end, what) in _became)
        {
            tally.Count(end == key, what.Animal, what.Day, what.Fact);
        }

        return tally.Share(key, label);
    }

    // The next thing that decided: a result or examination, a service, a calving, leaving.
    private static string EndOf(LactationRecord lactation, int recheck)
    {
        var results = lactation.Log.Results;
        var sampled = results[recheck].Fact.Day;
        var next = results.FindIndex(recheck + 1, r => r.Decision is Decision.Pregnant or Decision.Open && r.Fact.Day > sampled);
        var served = lactation.Services.Find(s => s.Day > sampled);
        if (served is not null && (next < 0 || served.Day < results[next].Fact.Day))
        {
            return "served";
        }

        return next >= 0 ? results[next].Decision == Decision.Pregnant ? "pregnant" : "open"
            : lactation.NextCalving is not null ? "calved"
            : lactation.LeftOn is not null ? "left"
            : "undecided";
    }

    private static string Word(Outcome outcome) => outcome.ToString().ToLowerInvariant();

    private static string Words(Outcome outcome) => outcome switch
    {
        Outcome.Recheck => "inconclusive",
        Outcome.Invalid => "spoiled",
        _ => Word(outcome),
    };
}
