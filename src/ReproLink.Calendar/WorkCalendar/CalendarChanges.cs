using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Resynchronisation;

namespace ReproLink.Calendar.WorkCalendar;

/// <summary>What became of a line of work between two looks.</summary>
public enum WorkChangeKind
{
    /// <summary>It was not there.</summary>
    Added = 1,

    /// <summary>Another day or time.</summary>
    Moved = 2,

    /// <summary>It fell away.</summary>
    Cancelled = 3,

    /// <summary>It may be done now; before it was held, or hung on an answer.</summary>
    Released = 4,

    /// <summary>It is held now; before it was to be done, or hung on an answer.</summary>
    Withheld = 5,
}

/// <summary>One change between two looks.</summary>
/// <param name="Kind">What became of it.</param>
/// <param name="Before">The line at the earlier look; absent = not there.</param>
/// <param name="Now">The line now; absent = gone without a trace.</param>
public sealed record WorkChange(WorkChangeKind Kind, WorkItem? Before, WorkItem? Now)
{
    /// <summary>The line as it is now, or as it last was.</summary>
    public WorkItem Item => Now ?? Before!;
}

/// <summary>
/// Compares two work calendars line by line. A line keeps its id when it is dated anew, so what is new is told from what
/// moved. What only the passing of days did (a planned draw whose day went by, a step taken as done) is no change.
/// </summary>
public static class CalendarChanges
{
    /// <summary>The changes of a period, in order of the lines' days.</summary>
    /// <param name="before">The calendar of the earlier look, cancelled lines included, over more than the period.</param>
    /// <param name="now">The calendar now, likewise.</param>
    /// <param name="from">First day: a line counts that falls, or fell, in the period.</param>
    /// <param name="to">Last day.</param>
    public static IReadOnlyList<WorkChange> Between(WorkSchedule before, WorkSchedule now, Day from, Day to)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(now);
        var earlier = ById(before);
        var changes = new List<WorkChange>();
        foreach (var (id, item) in ById(now))
        {
            earlier.Remove(id, out var old);
            if (KindOf(old, item, now.AsOf) is { } kind && (IsIn(item) || IsIn(old)))
            {
                changes.Add(new WorkChange(kind, old, item));
            }
        }

        changes.AddRange(earlier.Values
            .Where(old => IsLive(old) && old.Date >= now.AsOf && IsIn(old))
            .Select(old => new WorkChange(WorkChangeKind.Cancelled, old, null)));
        return [.. changes.OrderBy(c => c.Item.Date).ThenBy(c => c.Item.Time).ThenBy(c => c.Item.Id, StringComparer.Ordinal)];

        bool IsIn(WorkItem? item) => item is not null && item.Date >= from && item.Date <= to;
    }

    private static WorkChangeKind? KindOf(WorkItem? old, WorkItem item, Day today)
    {
        if (old is null || !IsLive(old))
        {
            return IsLive(item) ? WorkChangeKind.Added : null;
        }

        if (!IsLive(item))
        {
            return item.State == StepState.Cancelled && old.Date >= today ? WorkChangeKind.Cancelled : null;
        }

        if (old.Date != item.Date || old.Time != item.Time)
        {
            // A planned draw goes on to the next sampling day by itself.
            return old.IsDraw && old.Date < today ? null : WorkChangeKind.Moved;
        }

        return (IsGiven(old), IsGiven(item)) switch
        {
            (false, true) => WorkChangeKind.Released,
            (true, false) => WorkChangeKind.Withheld,
            _ => old.State == StepState.Conditional && item.State == StepState.Firm ? WorkChangeKind.Released : null,
        };
    }

    private static Dictionary<string, WorkItem> ById(WorkSchedule schedule)
    {
        var items = new Dictionary<string, WorkItem>(StringComparer.Ordinal);
        foreach (var item in schedule.Items)
        {
            if (item is { Animal: not null, IsRepeat: false } and not { Kind: WorkKind.Alert })
            {
                items.TryAdd(item.Id, item);
            }
        }

        return items;
    }

    private static bool IsLive(WorkItem item) => IsGiven(item) || item.State is StepState.Held or StepState.AwaitingApproval;

    private static bool IsGiven(WorkItem item) => item.State is StepState.Firm or StepState.Conditional;
}
