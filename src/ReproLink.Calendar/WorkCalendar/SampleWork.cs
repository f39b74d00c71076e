using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Rounds;
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
        var left = new List<Sample>();
        foreach (var day in list.Days)
        {
            Count(day.Date, day.Count, rules, dispatches, results);
        }

        foreach (var sample in animals.SelectMany(Awaited))
        {
            if (!Storage.IsOfRound(sample))
            {
                Count(sample.Day, 1, rules, dispatches, results);
            }
            else if (sample.Dispatched is { } gone && gone <= asOf)
            {
                Count(sample.Day, 1, rules, [], results, gone);
            }
            else if (rules.Laboratory.Report(sample.Day) is { OnFarm: false } report && report.Dispatched < asOf)
            {
                left.Add(sample);
            }
            else
            {
                Count(sample.Day, 1, rules, dispatches, results);
            }
        }

        return Lines(dispatches, WorkKind.Dispatch, "dispatch", asOf)
            .Concat(Lines(results, WorkKind.ResultExpected, "result", asOf))
            .Concat(Undispatched(left, asOf));
    }

    // Only of tubes of rounds is it known whether they left (L1); every day until they do, break or are answered.
    private static IEnumerable<WorkItem> Undispatched(List<Sample> samples, Day asOf)
    {
        if (samples.Count == 0)
        {
            yield break;
        }

        var oldest = samples.Min(s => s.Day);
        var tooOld = samples.Count(s => Storage.IsTooLong(s.Day, asOf));
        var facts = samples.Select(s => s.Id).ToArray();
        List<Reason> reasons = [Reason.Of("L1", $"{samples.Count} drawn and not dispatched, the oldest on {oldest.ToSentence()}", facts)];
        if (tooOld > 0)
        {
            reasons.Add(Reason.Of("L3", $"{tooOld} drawn more than {Storage.MostDays} days ago: too old to decide anything, draw again", facts));
        }

        yield return new WorkItem(WorkIds.Of("dispatch", "overdue"), asOf, WorkKind.Dispatch, StepState.Firm)
        {
            Count = samples.Count,
            Overdue = true,
            Reasons = reasons,
        };
    }

    private static IEnumerable<Sample> Awaited(AnimalState animal) => animal.Departure is null ? animal.PendingSamples : [];

    private static void Count(
        Day draw, int samples, HerdRules rules, SortedDictionary<Day, int> dispatches, SortedDictionary<Day, int> results, Day? left = null)
    {
        if (rules.Laboratory.Report(draw, left) is not { } report)
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
