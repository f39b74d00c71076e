using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;

namespace ReproLink.Api.Feeds;

/// <summary>
/// Writes the feed. The only file that knows the calendar library; the only place where a last day becomes the day after it,
/// as the format wants.
/// </summary>
internal static class FeedWriter
{
    private const int DaysBack = 14;
    private const int DaysAhead = 91;

    public static string Write(HerdView view, bool byDay)
    {
        var query = new WorkQuery(view.AsOf - DaysBack, view.AsOf + DaysAhead) { IncludeCancelled = true };
        var schedule = WorkCalendars.Make(view.Animals, view.Rules, query, view.AsOf, view.KnownAt);
        var calendar = new Ical.Net.Calendar { ProductId = "-//ReproLink//Work calendar//EN", Method = "PUBLISH" };
        calendar.AddProperty("X-WR-CALNAME", view.Herd.Name);
        var stamps = new FeedStamps(view);
        var entries = byDay
            ? schedule.Items.GroupBy(i => i.Date).Select(day => Day(view, day.Key, [.. day], stamps))
            : schedule.Items.Select(item => Entry(view, item, stamps));
        calendar.Events.AddRange(entries);
        return new CalendarSerializer(calendar).SerializeToString()!;
    }

    private static CalendarEvent Entry(HerdView view, WorkItem item, FeedStamps stamps)
    {
        var entry = new CalendarEvent
        {
            Uid = Uid(view, item.Id),
            Summary = FeedText.Title(item),
            Description = FeedText.Details(item),
            DtStamp = new CalDateTime(stamps.Of(item).ToDateTimeUtc(), true),
            Status = item.State == StepState.Cancelled ? EventStatus.Cancelled : EventStatus.Confirmed,
            Transparency = TransparencyType.Transparent,
        };
        Place(entry, view, item.Date, item.Time);
        return entry;
    }

    private static CalendarEvent Day(HerdView view, Day day, IReadOnlyList<WorkItem> items, FeedStamps stamps)
    {
        var entry = new CalendarEvent
        {
            Uid = Uid(view, $"day-{day}"),
            Summary = FeedText.DayTitle(items),
            Description = FeedText.DayDetails(items),
            DtStamp = new CalDateTime(items.Max(stamps.Of).ToDateTimeUtc(), true),
            Status = items.All(i => i.State == StepState.Cancelled) ? EventStatus.Cancelled : EventStatus.Confirmed,
            Transparency = TransparencyType.Transparent,
        };
        Place(entry, view, day, null);
        return entry;
    }

    // A wall-clock time is written as its instant, so that it is right wherever the phone is.
    private static void Place(CalendarEvent entry, HerdView view, Day day, LocalTime? time)
    {
        if (time is { } clock)
        {
            var at = StepTimes.Resolve(StepTimes.At(day, clock), view.Rules.Zone).ToDateTimeUtc();
            entry.Start = new CalDateTime(at, true);
            entry.Duration = Ical.Net.DataTypes.Duration.FromMinutes(15);
            return;
        }

        entry.Start = AllDay(day);
        entry.End = AllDay(day + 1);
    }

    private static CalDateTime AllDay(Day day) => new(day.Date.Year, day.Date.Month, day.Date.Day);

    private static string Uid(HerdView view, string id) =>
        $"{id}@{Uri.EscapeDataString(view.Herd.Location.Scheme)}.{Uri.EscapeDataString(view.Herd.Location.Id)}.reprolink";
}
