using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>Makes bleed lists (rules B1–B5).</summary>
public static class BleedLists
{
    /// <summary>The list of a period.</summary>
    /// <param name="animals">The herd, folded for <paramref name="asOf"/>.</param>
    /// <param name="rules">The herd's rules.</param>
    /// <param name="from">First day.</param>
    /// <param name="to">Last day, on or after <paramref name="from"/>.</param>
    /// <param name="asOf">The day it is made on: earlier days list nothing, no result that comes after it is assumed (B2).</param>
    /// <param name="pen">Only the animals of one pen are shown; daily limits still count the herd. Null = all.</param>
    public static BleedList Make(IReadOnlyList<AnimalState> animals, HerdRules rules, Day from, Day to, Day asOf, string? pen = null)
    {
        ArgumentNullException.ThrowIfNull(animals);
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentOutOfRangeException.ThrowIfLessThan(to, from);
        var planner = new BleedPlanner(rules, asOf, to);
        var plans = new Plan[animals.Count];
        for (var i = 0; i < plans.Length; i++)
        {
            plans[i] = planner.Plan(animals[i]);
        }

        plans = InOrder(plans);
        for (var i = 0; i < plans.Length; i++)
        {
            plans[i].Rank = i;
        }

        DailyLimit.Apply(plans, rules, asOf, to);
        return Collect(plans, rules, from, to, asOf, pen);
    }

    // The plans are in natural order of the animals, and so is every part of the list; by pen it is sorted without upsetting that.
    private static BleedList Collect(Plan[] plans, HerdRules rules, Day from, Day to, Day asOf, string? pen)
    {
        var days = new SortedDictionary<Day, List<BleedLine>>();
        var rest = new SortedDictionary<(Answer, AnswerReason), List<AnimalState>>();
        var asked = Day.Max(from, asOf);
        foreach (var plan in plans)
        {
            if (plan.IsOutside || (pen is not null && plan.State.Card?.Pen != pen))
            {
                continue;
            }

            if (plan.Day is { } day && day >= from && day <= to)
            {
                Add(days, day, Line(plan, rules, day));
            }
            else
            {
                Add(rest, Counted(plan, rules, from, to, asOf, asked), plan.State);
            }
        }

        return new BleedList(from, to, asOf,
            [.. days.Select(d => new BleedDay(d.Key, [.. d.Value.OrderBy(line => line.State.Card?.Pen, NaturalOrder.Instance)]))],
            [.. rest.Select(r => new CountedRest(r.Key.Item1, AnswerWords.Of(r.Key.Item2), r.Value))]);
    }

    // Comparing names is most of the work of a sort: a herd that comes in natural order is not sorted again, here or later.
    private static Plan[] InOrder(Plan[] plans)
    {
        for (var i = 1; i < plans.Length; i++)
        {
            if (NaturalOrder.Instance.Compare(plans[i - 1].State.Animal, plans[i].State.Animal) > 0)
            {
                return [.. plans.OrderBy(p => p.State.Animal, NaturalOrder.Instance)];
            }
        }

        return plans;
    }

    private static BleedLine Line(Plan plan, HerdRules rules, Day day)
    {
        var answer = TestWindows.Answer(plan.State, rules, day);
        // A draw past closes is too late for the step the test would have served.
        var serves = answer.Verdict is { Overdue: false, Serves: { } step } ? step : (ServedStep?)null;
        return new BleedLine(answer, serves, plan.Moved);
    }

    // B5: open by the last day but planned after it, planned before the first day, else her answer on the later of the
    // first day and today.
    private static (Answer, AnswerReason) Counted(Plan plan, HerdRules rules, Day from, Day to, Day asOf, Day asked)
    {
        if (plan.Day is { } day && day < from)
        {
            return (Answer.NotNeeded, AnswerReason.PlannedEarlier);
        }

        if (plan.Opens <= to)
        {
            return (Answer.NotYet, AnswerReason.PlannedLater);
        }

        var verdict = asked == asOf ? plan.Today : TestWindows.Judge(plan.State, rules, asked);
        return verdict.Answer == Answer.Eligible
            ? (Answer.NotYet, AnswerReason.PlannedLater)
            : (verdict.Answer!.Value, verdict.Reason);
    }

    private static void Add<TKey, TItem>(SortedDictionary<TKey, List<TItem>> groups, TKey key, TItem item)
        where TKey : notnull
    {
        if (!groups.TryGetValue(key, out var list))
        {
            groups.Add(key, list = []);
        }

        list.Add(item);
    }
}
