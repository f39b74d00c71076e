using NodaTime;
using ReproLink.Calendar.Dates;

namespace ReproLink.Calendar.Programmes;

/// <summary>When a report is expected.</summary>
/// <param name="Dispatched">The day the sample leaves; on the farm, the draw day.</param>
/// <param name="Day">The report day.</param>
/// <param name="Time">Wall-clock time of the report.</param>
/// <param name="OnFarm">Read on the farm: serves every step of its day (L2).</param>
public readonly record struct ExpectedReport(Day Dispatched, Day Day, LocalTime Time, bool OnFarm)
{
    /// <summary>Whether the report is expected before a step (L2).</summary>
    /// <param name="day">The step's day.</param>
    /// <param name="time">The step's wall-clock time.</param>
    public bool IsBefore(Day day, LocalTime time) => Day < day || (Day == day && (OnFarm || Time < time));
}

/// <summary>The way of a sample from the chute to its answer (rules L1, L2).</summary>
public sealed class LaboratoryCalendar
{
    private readonly HerdRules _rules;

    internal LaboratoryCalendar(HerdRules rules) => _rules = rules;

    /// <summary>The expected report of a sample drawn on a day; null when it can never leave or arrive within a year.</summary>
    /// <param name="draw">The day it is drawn.</param>
    /// <param name="left">The day it left; absent = it leaves on the first dispatch day.</param>
    public ExpectedReport? Report(Day draw, Day? left = null)
    {
        var programme = _rules.WorkDaysOn(draw).Programme;
        var laboratory = programme.Laboratory;
        if (laboratory.Kind == LaboratoryKind.OnFarm)
        {
            return new ExpectedReport(draw, draw, programme.Week.Morning.PlusMinutes(laboratory.Minutes), true);
        }

        if ((left ?? First(draw, static (days, day) => days.IsDispatch(day))) is not { } dispatched)
        {
            return null;
        }

        var day = First(dispatched + laboratory.TransitDays, static (days, day) => days.IsWorking(day));
        for (var i = 0; i < laboratory.TurnaroundWorkingDays && day is not null; i++)
        {
            day = NextWorkingDay(day.Value);
        }

        return day is { } report ? new ExpectedReport(dispatched, report, laboratory.ReportTime, false) : null;
    }

    /// <summary>The first laboratory working day after a day; null = none within a year.</summary>
    public Day? NextWorkingDay(Day after) => First(after + 1, static (days, day) => days.IsWorking(day));

    /// <summary>
    /// The day from which a report expected of a sample counts as overdue: the second laboratory working day after the
    /// expected report day (W1); null = it is never expected.
    /// </summary>
    public Day? OverdueFrom(Day draw, Day? left = null) =>
        Report(draw, left) is { } report && NextWorkingDay(report.Day) is { } first ? NextWorkingDay(first) : null;

    /// <summary>The last sampling day in [<paramref name="opens"/>, step] whose report is expected before a step (L2); null = none.</summary>
    public Day? LastUsefulDraw(Day opens, Day stepDay, LocalTime stepTime)
    {
        for (var draw = stepDay; draw >= opens; draw -= 1)
        {
            if (_rules.IsSamplingDay(draw) && Report(draw) is { } report && report.IsBefore(stepDay, stepTime))
            {
                return draw;
            }
        }

        return null;
    }

    private Day? First(Day from, Func<WorkDays, Day, bool> wanted)
    {
        for (var day = from; day <= from + HerdRules.Horizon; day += 1)
        {
            if (wanted(_rules.WorkDaysOn(day), day))
            {
                return day;
            }
        }

        return null;
    }
}
