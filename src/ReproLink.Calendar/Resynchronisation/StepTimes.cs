using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>Where the steps of a protocol fall: day intervals keep the wall clock, hour intervals are elapsed hours (rule S3).</summary>
public static class StepTimes
{
    /// <summary>The planned wall-clock time of a step.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="step">One of its steps.</param>
    /// <param name="start">The wall-clock time of the start, from which every chain of anchors counts.</param>
    /// <param name="zone">The herd's time zone.</param>
    public static LocalDateTime Planned(Protocol protocol, ProtocolStep step, LocalDateTime start, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(protocol);
        ArgumentNullException.ThrowIfNull(step);
        var anchor = step.Anchor is { } id
            ? Planned(protocol, protocol.Steps.First(s => s.Id == id), start, zone)
            : start;
        return After(anchor, step, zone);
    }

    /// <summary>A step's wall-clock time counted from its anchor's.</summary>
    public static LocalDateTime After(LocalDateTime anchor, ProtocolStep step, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(zone);
        if (step.Hours is { } hours)
        {
            return hours == 0 ? anchor : Resolve(anchor, zone).Plus(Duration.FromHours(hours)).InZone(zone).LocalDateTime;
        }

        var days = step.Days ?? 0;
        return days == 0 ? anchor : Resolve(anchor.PlusDays(days), zone).InZone(zone).LocalDateTime;
    }

    /// <summary>The instant of a wall-clock time: one that does not exist moves forward by the gap, one that occurs twice is the first.</summary>
    public static Instant Resolve(LocalDateTime local, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return zone.ResolveLocal(local, NodaTime.TimeZones.Resolvers.LenientResolver).ToInstant();
    }

    /// <summary>A day and wall-clock time.</summary>
    public static LocalDateTime At(Day day, LocalTime time) => day.Date + time;
}
