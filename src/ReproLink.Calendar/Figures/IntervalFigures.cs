using ReproLink.Calendar.Figures.Histories;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Figures;

/// <summary>A class of days between two services.</summary>
/// <param name="Key">Its key, e.g. <c>18-24</c>.</param>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
public sealed record IntervalClass(string Key, int From, int To)
{
    /// <summary>The classes in order. Up to 3 days is one service inseminated twice.</summary>
    public static IReadOnlyList<IntervalClass> All { get; } =
    [
        new("up-to-3", 1, HistoryFold.SameServiceDays), new("4-17", 4, 17), new("18-24", 18, 24), new("25-35", 25, 35), new("36-48", 36, 48),
        new("over-48", 49, int.MaxValue),
    ];

    /// <summary>The class of some days, 1 or more.</summary>
    public static IntervalClass Of(int days) => All.First(c => days <= c.To);
}

/// <summary>Days from one service to the next.</summary>
internal sealed class IntervalFigures(FigureQuestion question) : IFigures
{
    private readonly bool _keep = question.Detail == "service-intervals";
    private readonly Tally _mean = new(question.Detail == "service-intervals");
    private readonly List<(IntervalClass Class, FigureCase Case)> _intervals = [];
    private readonly List<FigureCase> _repeats = [];

    public void Add(LactationRecord lactation, IReadOnlyList<StepRecord> steps)
    {
        for (var i = 0; i < lactation.Services.Count; i++)
        {
            var service = lactation.Services[i];
            if (service.Day < question.From || service.Day > question.To)
            {
                continue;
            }

            var one = new FigureCase(lactation.Animal, service.Day, CasePart.Counted) { Fact = service.Fact.Id };
            if (service.Attempt.First != service.Fact)
            {
                _repeats.Add(one);
            }

            if (i > 0 && service.Day - lactation.Services[i - 1].Day is > HistoryFold.SameServiceDays and var days)
            {
                _intervals.Add((IntervalClass.Of(days), one with { Days = days }));
                _mean.AddDays(days, lactation.Animal, service.Day, service.Fact.Id);
            }
        }
    }

    public IEnumerable<Figure> Figures()
    {
        var lines = new List<FigureLine> { _mean.Mean("all", "days between services") };
        foreach (var one in IntervalClass.All)
        {
            var tally = new Tally(_keep);
            foreach (var (found, what) in _intervals)
            {
                tally.Count(found == one, what.Animal, what.Day, what.Fact);
            }

            lines.Add(one.To <= HistoryFold.SameServiceDays ? Repeats() : tally.Share(one.Key, one.To == int.MaxValue ? "over 48 days" : $"{one.Key} days"));
        }

        return [new Figure(FigureBook.Get("service-intervals"), lines)];
    }

    // Of all insemination intervals, those that are one service: told apart from the classes, which are of services.
    private FigureLine Repeats()
    {
        var tally = new Tally(_keep);
        foreach (var one in _repeats)
        {
            tally.Count(true, one.Animal, one.Day, one.Fact);
        }

        foreach (var (_, one) in _intervals)
        {
            tally.Count(false, one.Animal, one.Day, one.Fact);
        }

        return tally.Share("up-to-3", "inseminated again within 3 days: one service");
    }
}
