using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;

namespace ReproLink.Calendar.WorkCalendar;

/// <summary>What a work calendar is asked for.</summary>
/// <param name="From">First day.</param>
/// <param name="To">Last day.</param>
public sealed record WorkQuery(Day From, Day To)
{
    /// <summary>Only one pen; null = all.</summary>
    public string? Pen { get; init; }

    /// <summary>Only these kinds; empty = all.</summary>
    public IReadOnlyCollection<WorkKind> Kinds { get; init; } = [];

    /// <summary>Whether cancelled items are shown.</summary>
    public bool IncludeCancelled { get; init; }
}

/// <summary>Makes work calendars (5.9).</summary>
public static class WorkCalendars
{
    /// <summary>The work of a period.</summary>
    /// <param name="animals">The herd, folded for <paramref name="asOf"/>.</param>
    /// <param name="rules">The herd's rules.</param>
    /// <param name="query">What is asked.</param>
    /// <param name="asOf">The day it is made on.</param>
    /// <param name="knownAt">The moment it is made at.</param>
    public static WorkSchedule Make(IReadOnlyList<AnimalState> animals, HerdRules rules, WorkQuery query, Day asOf, Instant knownAt)
    {
        ArgumentNullException.ThrowIfNull(animals);
        ArgumentNullException.ThrowIfNull(rules);
        ArgumentNullException.ThrowIfNull(query);
        var items = new List<WorkItem>();
        if (query.To >= asOf)
        {
            var list = BleedLists.Make(animals, rules, asOf, query.To, asOf);
            items.AddRange(SampleWork.Draws(list));
            items.AddRange(SampleWork.OnTheirWay(list, animals, rules, asOf));
        }

        foreach (var animal in animals)
        {
            if (animal.Exists && animal.Departure is null)
            {
                StepWork.AddTo(items, animal, Planner.Of(animal, rules, asOf, knownAt), asOf);
                AnimalWork.AddTo(items, animal, rules, asOf);
            }
        }

        var shown = items.Where(item => IsAsked(item, query)).ToList();
        shown.Sort(InOrder);
        return new WorkSchedule(query.From, query.To, asOf, shown, Totals.Of(shown, asOf));
    }

    private static bool IsAsked(WorkItem item, WorkQuery query) =>
        item.Date >= query.From && item.Date <= query.To
        && (query.IncludeCancelled || item.State != StepState.Cancelled)
        && (query.Kinds.Count == 0 || query.Kinds.Contains(item.Kind))
        && (query.Pen is null || (item.Animal is not null && item.Animal.Card?.Pen == query.Pen));

    private static readonly Comparison<WorkItem> InOrder = (a, b) =>
    {
        var order = a.Date.CompareTo(b.Date);
        order = order != 0 ? order : (a.Time ?? LocalTime.Midnight).CompareTo(b.Time ?? LocalTime.Midnight);
        order = order != 0 ? order : NaturalOrder.Instance.Compare(a.Animal?.Card?.Pen, b.Animal?.Card?.Pen);
        order = order != 0 ? order : NaturalOrder.Instance.Compare(a.Animal?.Animal, b.Animal?.Animal);
        order = order != 0 ? order : a.Kind.CompareTo(b.Kind);
        return order != 0 ? order : string.CompareOrdinal(a.Id, b.Id);
    };
}
