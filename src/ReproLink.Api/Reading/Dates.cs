using NodaTime;
using NodaTime.Text;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Reading;

/// <summary>Dates, times and instants as texts of the contract.</summary>
internal static class Dates
{
    public const string AllowedDay = "a date that exists, YYYY-MM-DD, from 0001-01-01 to 2999-12-31";
    public const string AllowedTime = "a time of day, HH:mm";
    public const string AllowedInstant = "an instant in UTC, e.g. 2026-10-05T12:00:00Z";

    private const int LastYear = 2999;
    private static readonly LocalTimePattern TimePattern = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    public static bool TryDay(string text, out Day day)
    {
        day = default;
        var parsed = text.Length == 10 ? LocalDatePattern.Iso.Parse(text) : null;
        // Years end well before the last date there is: the calendar counts on from every date it is given.
        if (parsed is not { Success: true } || parsed.Value.Year is < 1 or > LastYear)
        {
            return false;
        }

        day = Day.From(parsed.Value);
        return true;
    }

    public static bool TryTime(string text, out LocalTime time)
    {
        var parsed = TimePattern.Parse(text);
        time = parsed.Success ? parsed.Value : default;
        return parsed.Success;
    }

    public static bool TryInstant(string text, out Instant instant)
    {
        var parsed = InstantPattern.ExtendedIso.Parse(text);
        instant = parsed.Success ? parsed.Value : default;
        return parsed.Success && parsed.Value.InUtc().Year is >= 1 and <= LastYear;
    }
}
