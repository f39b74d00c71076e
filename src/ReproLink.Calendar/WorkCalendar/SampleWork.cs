using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;

namespace ReproLink.Calendar.WorkCalendar;

/// <summary>Draws from the bleed list, and the way of the samples to their answers.</summary>
internal static class SampleWork
{
    public static IEnumerable<WorkItem> Draws(BleedList list) =>
        from day in list.Days
        from line in day.Animals
        select Draw(day.Date, line);

    private static WorkItem Draw(Day date, BleedLine line)
    {
        var verdict = line.Answer.Verdict;
        var kind = verdict.Need switch
        {
            Need.Resample => WorkKind.Resample,
            Need.Confirmation => WorkKind.Confirmation,
            _ => WorkKind.Draw,
        };
        var about = line.State.LatestService?.Fact.Id ?? line.State.LastCalving?.Id ?? default;
        return new WorkItem(WorkIds.Of(line.State.Animal, "draw", about.ToString(), verdict.Need.ToString()!), date, kind, StepState.Firm)
        {
            Session = Session.Morning,
            IsDraw = true,
            Animal = line.State,
            Overdue = verdict.Overdue,
            Reasons = line.Answer.Reasons,
        };
    }

    /// <summary>Dispatches and expected results, one line a day with the count: planned draws and samples not answered yet.</summary>
    public static IEnumerable<WorkItem> OnTheirWay(BleedList list, IReadOnlyList<AnimalState> animals, HerdRules rules, Day asOf)
    {
        var dispatches = new SortedDictionary<Day, int>();
        var results = new SortedDictionary<Day, int>();
        foreach (var day in list.Days)
        {
            Count(day.Date, day.Count, rules, dispatches, results);
        }

        foreach (var animal in animals)
        {
            foreach (var sample in Awaited(animal))
            {
                Count(sample.Day, 1, rules, dispatches, results);
            }
        }

        return Lines(dispatches, WorkKind.Dispatch, "dispatch", asOf).Concat(Lines(results, WorkKind.ResultExpected, "result", asOf));
    }

    private static IEnumerable<Sample> Awaited(AnimalState animal) => animal.Departure is null ? animal.PendingSamples : [];

    private static void Count(Day draw, int samples, HerdRules rules, SortedDictionary<Day, int> dispatches, SortedDictionary<Day, int> results)
    {
        if (rules.Laboratory.Report(draw) is not { } report)
        {
            return;
        }

        if (!report.OnFarm)
        {
            dispatches[report.Dispatched] = dispatches.GetValueOrDefault(report.Dispatched) + samples;
        }

        results[report.Day] = results.GetValueOrDefault(report.Day) + samples;
    }

    private static IEnumerable<WorkItem> Lines(SortedDictionary<Day, int> days, WorkKind kind, string word, Day asOf) =>
        from day in days
        where day.Key >= asOf
        select new WorkItem(WorkIds.Of(word, day.Key.ToString()), day.Key, kind, StepState.Firm) { Count = day.Value };
}
