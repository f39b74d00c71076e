using NodaTime;
using NodaTime.Text;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Exchange;

/// <summary>The standard's instants and the herd's days.</summary>
internal static class ExchangeTime
{
    public const string Allowed = "an instant with its zone, e.g. 2026-10-05T12:00:00Z";

    private const int LastYear = 2999;

    /// <summary>Reads an instant in any offset; without one it is refused, for it could be two days.</summary>
    public static bool TryInstant(string text, out Instant instant)
    {
        var parsed = OffsetDateTimePattern.Rfc3339.Parse(text);
        instant = parsed.Success ? parsed.Value.ToInstant() : default;
        return parsed.Success && parsed.Value.Year is > 1 and <= LastYear;
    }

    /// <summary>
    /// The herd's day and time. Midnight UTC to the second is how senders write a date alone: then it is that date, and there
    /// is no time.
    /// </summary>
    public static (Day Day, LocalTime? Time) OnFarm(Instant instant, DateTimeZone zone)
    {
        if (instant.InUtc().LocalDateTime is { TimeOfDay: var time, Date: var date } && time == LocalTime.Midnight)
        {
            return (Day.From(date), null);
        }

        var local = instant.InZone(zone);
        return (Day.From(local.Date), LocalTime.FromMillisecondsSinceMidnight((int)(local.TimeOfDay.TickOfDay / NodaConstants.TicksPerMillisecond)));
    }

    /// <summary>A day and time as an instant; a day alone as local midday, which names the same date in nearly every zone.</summary>
    public static Instant At(Day day, LocalTime? time, DateTimeZone zone) =>
        day.Date.At(time ?? LocalTime.Noon).InZoneLeniently(zone).ToInstant();
}
