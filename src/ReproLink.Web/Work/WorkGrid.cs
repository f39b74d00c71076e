using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Web.Words;

namespace ReproLink.Web.Work;

/// <summary>One cell: what is to be done or hangs on an answer, and what is held.</summary>
public readonly record struct WorkCount(int Planned, int Conditional, int Held)
{
    /// <summary>Whether there is anything to show.</summary>
    public bool IsEmpty => Planned == 0 && Held == 0;

    internal WorkCount With(WorkItem item) => item.State switch
    {
        StepState.Firm => this with { Planned = Planned + 1 },
        StepState.Conditional => this with { Planned = Planned + 1, Conditional = Conditional + 1 },
        StepState.Held or StepState.AwaitingApproval => this with { Held = Held + 1 },
        _ => this,
    };
}

/// <summary>One week of the grid, from the day the reader's week begins with, cut at the ends of the period.</summary>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
public sealed record GridWeek(Day From, Day To);

/// <summary>Work counted by week, day and pen. What is done, missed or cancelled is not counted.</summary>
public sealed class WorkGrid
{
    private readonly Dictionary<(Day, WorkColumn), WorkCount> _byDay = [];
    private readonly Dictionary<(Day, string, WorkColumn), WorkCount> _byPen = [];
    private readonly Dictionary<Day, SortedSet<string>> _pens = [];

    public WorkGrid(WorkSchedule schedule)
    {
        ArgumentNullException.ThrowIfNull(schedule);
        Weeks = [.. WeeksOf(schedule.From, schedule.To)];
        foreach (var item in schedule.Items)
        {
            if (item.Animal is not null && WorkColumns.Of(item) is { } column && IsCounted(item))
            {
                Count(item, column);
            }
        }

        Columns = [.. WorkColumns.All.Where(c => _byDay.Keys.Any(k => k.Item2 == c))];
    }

    /// <summary>The weeks.</summary>
    public IReadOnlyList<GridWeek> Weeks { get; }

    /// <summary>The columns with anything in them.</summary>
    public IReadOnlyList<WorkColumn> Columns { get; }

    /// <summary>Pens with work in a week, in natural order; an animal without one is in pen "".</summary>
    public IReadOnlyCollection<string> Pens(GridWeek week) => _pens.GetValueOrDefault(week.From) ?? [];

    /// <summary>The day that ends so many weeks, the one a day lies in counted in.</summary>
    public static Day LastDay(Day from, int weeks) => EndOf(from) + (7 * (weeks - 1));

    /// <summary>The days of a week.</summary>
    public static IEnumerable<Day> Days(GridWeek week)
    {
        for (var day = week.From; day <= week.To; day += 1)
        {
            yield return day;
        }
    }

    /// <summary>A day's count.</summary>
    public WorkCount Of(Day day, WorkColumn column) => _byDay.GetValueOrDefault((day, column));

    /// <summary>A pen's count in a week.</summary>
    public WorkCount Of(GridWeek week, string pen, WorkColumn column) => _byPen.GetValueOrDefault((week.From, pen, column));

    /// <summary>A week's count.</summary>
    public WorkCount Of(GridWeek week, WorkColumn column) => Days(week).Select(d => Of(d, column))
        .Aggregate(default(WorkCount), (a, b) => new WorkCount(a.Planned + b.Planned, a.Conditional + b.Conditional, a.Held + b.Held));

    /// <summary>The agents to have at hand: an insert is one item, put in once.</summary>
    public static IReadOnlyList<WorkColumn> Agents { get; } = [WorkColumn.Gnrh, WorkColumn.Prostaglandin, WorkColumn.InsertIn];

    private static bool IsCounted(WorkItem item) => item.State is StepState.Firm or StepState.Conditional or StepState.Held or StepState.AwaitingApproval;

    private void Count(WorkItem item, WorkColumn column)
    {
        var (day, pen) = (item.Date, item.Animal!.Card?.Pen ?? "");
        var week = Weeks.First(w => day <= w.To).From;
        _byDay[(day, column)] = _byDay.GetValueOrDefault((day, column)).With(item);
        _byPen[(week, pen, column)] = _byPen.GetValueOrDefault((week, pen, column)).With(item);
        if (!_pens.TryGetValue(week, out var pens))
        {
            _pens.Add(week, pens = new SortedSet<string>(NaturalOrder.Instance));
        }

        pens.Add(pen);
    }

    private static Day EndOf(Day day) => day + (((int)Reader.Current.WeekStart + 6 - (int)day.Weekday) % 7);

    private static IEnumerable<GridWeek> WeeksOf(Day from, Day to)
    {
        for (var start = from; start <= to;)
        {
            var end = Day.Min(to, EndOf(start));
            yield return new GridWeek(start, end);
            start = end + 1;
        }
    }
}
