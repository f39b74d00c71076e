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

        DailyLimit.Apply(plans, rules, asOf, to);
        return Collect(plans, rules, from, to, asOf, pen);
    }

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
            [.. days.Select(d => new BleedDay(d.Key, [.. d.Value.Order(ByPen)]))],
            [.. rest.Select(r => new CountedRest(r.Key.Item1, AnswerWords.Of(r.Key.Item2), InOrder(r.Value)))]);
    }

    // A whole herd comes in order already.
    private static List<AnimalState> InOrder(List<AnimalState> animals)
    {
        for (var i = 1; i < animals.Count; i++)
        {
            if (NaturalOrder.Instance.Compare(animals[i - 1].Animal, animals[i].Animal) > 0)
            {
                return [.. animals.OrderBy(s => s.Animal, NaturalOrder.Instance)];
            }
        }

        return animals;
    }

    private static readonly Comparer<BleedLine> ByPen = Comparer<BleedLine>.Create((a, b) =>
    {
        var order = NaturalOrder.Instance.Compare(a.State.Card?.Pen, b.State.Card?.Pen);
        return order != 0 ? order : NaturalOrder.Instance.Compare(a.State.Animal, b.State.Animal);
    });

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
