using System.Collections.Immutable;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.ProgrammeChecks;

/// <summary>
/// Looks for the smallest change that mends a finding. A change is suggested only when the check, run on the changed
/// programme, no longer has the finding and has no infeasible chain that was not there before.
/// </summary>
internal static class Suggestions
{
    private static readonly IsoDayOfWeek[] Weekdays =
    [
        IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday,
    ];

    public static CheckSuggestion? For(CheckFinding finding, CheckChain chain, Programme programme, HerdRules herd, Day week)
    {
        foreach (var (changed, suggestion) in Changes(finding, chain, programme))
        {
            var after = ChainMaker.Of(changed, herd, week);
            if (after.Chains.FirstOrDefault(c => c.From == chain.From && c.Heifer == chain.Heifer && c.Weekday == chain.Weekday) is { } mended
                && !mended.Findings.Any(f => f.Problem == finding.Problem && f.Step?.Id == finding.Step?.Id)
                && mended.Findings.All(f => f.Problem != CheckProblem.Infeasible))
            {
                return suggestion;
            }
        }

        return null;
    }

    private static IEnumerable<(Programme, CheckSuggestion)> Changes(CheckFinding finding, CheckChain chain, Programme programme)
    {
        if (chain.From == ChainFrom.Calving)
        {
            return FirstServiceDays(programme);
        }

        return finding.Problem switch
        {
            CheckProblem.OffHoursStep => Sessions(programme),
            CheckProblem.WeekendStep => StartDays(programme),
            _ => [.. SamplingDays(programme), .. DispatchDays(programme), .. StartDay(programme), .. AtResult(programme), .. StartDays(programme)],
        };
    }

    private static IEnumerable<(Programme, CheckSuggestion)> SamplingDays(Programme programme) =>
        from day in Weekdays
        where !programme.Week.SamplingDays.Contains(day)
        let days = Sorted(programme.Week.SamplingDays.Add(day))
        select (programme with { Week = programme.Week with { SamplingDays = days } },
            new CheckSuggestion("week.samplingDays", Names(days), $"draw blood on {day} as well"));

    private static IEnumerable<(Programme, CheckSuggestion)> DispatchDays(Programme programme) =>
        from day in Weekdays
        where programme.Laboratory.Kind == LaboratoryKind.Laboratory && !programme.Laboratory.DispatchDays.Contains(day)
        let days = Sorted(programme.Laboratory.DispatchDays.Add(day))
        select (programme with { Laboratory = programme.Laboratory with { DispatchDays = days } },
            new CheckSuggestion("laboratory.dispatchDays", Names(days), $"send samples off on {day} as well"));

    private static IEnumerable<(Programme, CheckSuggestion)> StartDay(Programme programme) =>
        from later in Enumerable.Range(1, 14)
        let day = programme.Resynchronisation.StartDay + later
        where programme.Resynchronisation.Start == StartRule.BeforeResult
        select (programme with { Resynchronisation = programme.Resynchronisation with { StartDay = day } },
            new CheckSuggestion("resynchronisation.startDay", $"{day}", $"start {day} days after service"));

    private static IEnumerable<(Programme, CheckSuggestion)> AtResult(Programme programme)
    {
        if (programme.Resynchronisation.Start == StartRule.BeforeResult)
        {
            yield return (programme with { Resynchronisation = programme.Resynchronisation with { Start = StartRule.AtResult } },
                new CheckSuggestion("resynchronisation.start", "at-result", "start when the result is known"));
        }
    }

    private static IEnumerable<(Programme, CheckSuggestion)> StartDays(Programme programme) =>
        from day in Weekdays
        where !programme.Week.StartDays.SequenceEqual([day])
        select (programme with { Week = programme.Week with { StartDays = [day] } },
            new CheckSuggestion("week.startDays", Names([day]), $"start on {day}"));

    private static IEnumerable<(Programme, CheckSuggestion)> FirstServiceDays(Programme programme) =>
        from day in Weekdays
        let first = programme.FirstService
        where first is not null && !first.StartDays.SequenceEqual([day])
        select (programme with { FirstService = first with { StartDays = [day] } },
            new CheckSuggestion("firstService.startDays", Names([day]), $"start first service on {day}"));

    private static IEnumerable<(Programme, CheckSuggestion)> Sessions(Programme programme) =>
        from hour in Enumerable.Range(programme.Week.WorkingFrom.Hour, Math.Max(1, programme.Week.WorkingTo.Hour - programme.Week.WorkingFrom.Hour))
        let time = new LocalTime(hour, 0)
        where time >= programme.Week.WorkingFrom && time < programme.Week.Afternoon
        select (programme with { Week = programme.Week with { Morning = time } },
            new CheckSuggestion("week.morning", time.ToString("HH':'mm", null), $"begin the morning session at {time.ToString("HH':'mm", null)}"));

    private static ImmutableArray<IsoDayOfWeek> Sorted(ImmutableArray<IsoDayOfWeek> days) => [.. days.Order()];

    private static string Names(ImmutableArray<IsoDayOfWeek> days) =>
        string.Join(", ", days.Select(d => d.ToString().ToLowerInvariant()));
}
