using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;
using ReproLink.Web.Work;

namespace ReproLink.Api.Pages;

/// <summary>
/// What changed since an earlier look: the calendar exactly as it was known then (that day, that moment) beside the calendar
/// now. Nothing is stored of what was shown; it is computed again.
/// </summary>
internal static class VisitChanges
{
    // Work that moved out of the weeks shown is moved, not gone.
    private const int DaysBeyond = 28;

    public static SinceVisit Of(Store store, HerdView now, Instant? since, Day to, Instant clock)
    {
        if (since is not { } at)
        {
            return new SinceVisit(null, []);
        }

        var day = Day.Min(now.Rules.DayOf(at), now.AsOf);
        if (at >= now.KnownAt && day == now.AsOf)
        {
            return new SinceVisit(at, []) { Day = day };
        }

        var then = store.Views.At(now.Herd, day, at, clock);
        var query = new WorkQuery(day, to + DaysBeyond) { IncludeCancelled = true };
        var before = then.Animals.ToDictionary(a => a.Animal, StringComparer.Ordinal);
        return new SinceVisit(at, CalendarChanges.Between(Make(then, query), Make(now, query), now.AsOf, to))
        {
            Day = day,
            Results = [.. from animal in now.Animals
                          from fact in animal.History.Facts
                          where fact is TestResult or Examination && fact.Recorded > at
                          select (animal, fact)],
            Conflicts = [.. from animal in now.Animals
                            from conflict in animal.Conflicts
                            where !Had(before.GetValueOrDefault(animal.Animal), conflict)
                            select (animal, conflict)],
            Held = [.. now.Animals.Where(a => a.History.Held.Any(h => h.Received > at))],
        };
    }

    private static bool Had(AnimalState? before, Conflict conflict) =>
        before is not null && before.Conflicts.Any(c => c.Kind == conflict.Kind && c.RaisedBy == conflict.RaisedBy);

    private static WorkSchedule Make(HerdView view, WorkQuery query) =>
        WorkCalendars.Make(view.Animals, view.Rules, query, view.AsOf, view.KnownAt);
}
