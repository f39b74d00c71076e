using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Testing;

/// <summary>
/// Moves animals above the daily limit to the next sampling day, the least urgent first: latest <c>closes</c> (none is the
/// latest), then latest <c>opens</c>, then animal order (rule B4).
/// </summary>
internal static class DailyLimit
{
    private static readonly Comparer<Plan> MostUrgentFirst = Comparer<Plan>.Create((a, b) =>
    {
        var order = (a.Closes ?? Day.Latest).CompareTo(b.Closes ?? Day.Latest);
        if (order == 0)
        {
            order = a.Opens!.Value.CompareTo(b.Opens!.Value);
        }

        return order != 0 ? order : a.Rank.CompareTo(b.Rank);
    });

    public static void Apply(Plan[] plans, HerdRules rules, Day asOf, Day to)
    {
        var byDay = plans.Where(p => p.Day is not null).GroupBy(p => p.Day!.Value).ToDictionary(g => g.Key, g => g.ToList());
        for (var day = rules.FirstSamplingDay(asOf); day is { } at && at <= to; day = rules.FirstSamplingDay(at + 1))
        {
            var limit = rules.On(at).Programme.Week.MaxTubesPerDay;
            if (!byDay.TryGetValue(at, out var planned) || planned.Count <= limit)
            {
                continue;
            }

            planned.Sort(MostUrgentFirst);
            Move(planned[limit..], rules.FirstSamplingDay(at + 1), byDay);
        }
    }

    private static void Move(List<Plan> moved, Day? next, Dictionary<Day, List<Plan>> byDay)
    {
        foreach (var plan in moved)
        {
            plan.Day = next;
            plan.Moved = true;
        }

        if (next is { } day)
        {
            if (!byDay.TryGetValue(day, out var planned))
            {
                byDay.Add(day, planned = []);
            }

            planned.AddRange(moved);
        }
    }
}
