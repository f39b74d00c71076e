using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Archives;

/// <summary>Values as they stand in the files: exact, so that what is read is what was written.</summary>
internal static class ArchiveText
{
    public static string Of(long number) => number.ToString(CultureInfo.InvariantCulture);

    public static string Of(int number) => number.ToString(CultureInfo.InvariantCulture);

    public static string? Of(int? number) => number?.ToString(CultureInfo.InvariantCulture);

    public static string? Of(double? number) => number?.ToString("R", CultureInfo.InvariantCulture);

    public static string Of(bool flag) => flag ? "true" : "false";

    public static string? Of(bool? flag) => flag is { } f ? Of(f) : null;

    public static string Of(Day day) => day.ToString();

    public static string? Of(Day? day) => day?.ToString();

    public static string Of(Instant instant) => InstantPattern.ExtendedIso.Format(instant);

    public static string? Of(Instant? instant) => instant is { } i ? Of(i) : null;

    public static string? Of(LocalTime? time) => time is { } t ? LocalTimePattern.ExtendedIso.Format(t) : null;
}
