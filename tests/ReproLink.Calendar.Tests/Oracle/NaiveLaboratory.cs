using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>L1 and the farm's days, one day at a time. Which kind of day it is, is told by the version in force on it (S10).</summary>
internal static class NaiveLaboratory
{
    private const int Year = 366;

    public static bool IsSamplingDay(HerdRules rules, Day day)
    {
        var week = rules.On(day).Programme.Week;
        return week.SamplingDays.Contains(day.Weekday) && !week.ClosedDates.Contains(day);
    }

    public static bool IsStartDay(HerdRules rules, Day day)
    {
        var week = rules.On(day).Programme.Week;
        return week.StartDays.Contains(day.Weekday) && !week.ClosedDates.Contains(day);
    }

    private static bool IsDispatchDay(HerdRules rules, Day day)
    {
        var programme = rules.On(day).Programme;
        return programme.Laboratory.DispatchDays.Contains(day.Weekday) && !programme.Week.ClosedDates.Contains(day);
    }

    private static bool IsWorkingDay(HerdRules rules, Day day)
    {
        var laboratory = rules.On(day).Programme.Laboratory;
        return laboratory.Kind == LaboratoryKind.OnFarm
            ? IsSamplingDay(rules, day)
            : laboratory.WorkingDays.Contains(day.Weekday) && !laboratory.ClosedDates.Contains(day);
    }

    /// <summary>The first day from <paramref name="from"/> on, within a year, that is such a day.</summary>
    public static Day? First(Day from, Func<Day, bool> isSuch) =>
        Enumerable.Range(0, Year + 1).Select(n => from + n).Where(isSuch).Select(d => (Day?)d).FirstOrDefault();

    public static Day? ReportDay(HerdRules rules, Day drawn)
    {
        var laboratory = rules.On(drawn).Programme.Laboratory;
        if (laboratory.Kind == LaboratoryKind.OnFarm)
            return drawn;
        if (First(drawn, d => IsDispatchDay(rules, d)) is not { } leaves)
            return null;
        var day = First(leaves + laboratory.TransitDays, d => IsWorkingDay(rules, d));
        for (var i = 0; i < laboratory.TurnaroundWorkingDays && day is not null; i++)
            day = First(day.Value + 1, d => IsWorkingDay(rules, d));
        return day;
    }

    public static Instant? Report(HerdRules rules, Day drawn)
    {
        if (ReportDay(rules, drawn) is not { } day)
            return null;
        var programme = rules.On(drawn).Programme;
        return programme.Laboratory.Kind == LaboratoryKind.OnFarm
            ? At(rules, day, programme.Week.Morning) + Duration.FromMinutes(programme.Laboratory.Minutes)
            : At(rules, day, programme.Laboratory.ReportTime);
    }

    public static Instant At(HerdRules rules, Day day, LocalTime time) =>
        (day.Date + time).InZoneLeniently(rules.Zone).ToInstant();

    /// <summary>The second laboratory working day after the expected report day: from then the report is overdue (W1).</summary>
    public static Day? ReportOverdueFrom(HerdRules rules, Day drawn)
    {
        if (ReportDay(rules, drawn) is not { } day || First(day + 1, d => IsWorkingDay(rules, d)) is not { } first)
            return null;
        return First(first + 1, d => IsWorkingDay(rules, d));
    }
}
