using System.Globalization;
using NodaTime;
using NodaTime.Text;

namespace ReproLink.Calendar.Dates;

/// <summary>
/// One calendar day of the herd, counted in whole days from 1970-01-01.
/// </summary>
/// <remarks>
/// Every rule of the calendar is a count of whole days, so the engine counts days; a <see cref="LocalDate"/> is made
/// only where a person or another program reads it. Days in the ISO calendar; equality and order by number.
/// </remarks>
/// <param name="Number">Days since 1970-01-01; negative before it.</param>
public readonly record struct Day(int Number) : IComparable<Day>
{
    private static readonly LocalDate Epoch = new(1970, 1, 1);

    /// <summary>The earliest day the calendar knows (0001-01-01): the day of a card that names no day.</summary>
    public static readonly Day Earliest = From(new LocalDate(1, 1, 1));

    /// <summary>A day later than every date (9999-12-31): stands for "no end".</summary>
    public static readonly Day Latest = From(new LocalDate(9999, 12, 31));

    /// <summary>The day of a date.</summary>
    public static Day From(LocalDate date) => new(Period.DaysBetween(Epoch, date));

    /// <summary>This day as a date.</summary>
    public LocalDate Date => Epoch.PlusDays(Number);

    /// <summary>The weekday.</summary>
    // 1970-01-01 was a Thursday (ISO 4).
    public IsoDayOfWeek Weekday => (IsoDayOfWeek)(((((Number + 3) % 7) + 7) % 7) + 1);

    /// <summary>The day <paramref name="days"/> days later.</summary>
    public static Day operator +(Day day, int days) => new(day.Number + days);

    /// <summary>The day <paramref name="days"/> days earlier.</summary>
    public static Day operator -(Day day, int days) => new(day.Number - days);

    /// <summary>The days from <paramref name="earlier"/> to <paramref name="later"/>; negative when reversed.</summary>
    public static int operator -(Day later, Day earlier) => later.Number - earlier.Number;

    /// <summary>Whether the left day is before the right.</summary>
    public static bool operator <(Day a, Day b) => a.Number < b.Number;

    /// <summary>Whether the left day is after the right.</summary>
    public static bool operator >(Day a, Day b) => a.Number > b.Number;

    /// <summary>Whether the left day is the right or before it.</summary>
    public static bool operator <=(Day a, Day b) => a.Number <= b.Number;

    /// <summary>Whether the left day is the right or after it.</summary>
    public static bool operator >=(Day a, Day b) => a.Number >= b.Number;

    /// <summary>The later of two days.</summary>
    public static Day Max(Day a, Day b) => a >= b ? a : b;

    /// <summary>The earlier of two days.</summary>
    public static Day Min(Day a, Day b) => a <= b ? a : b;

    /// <inheritdoc/>
    public int CompareTo(Day other) => Number.CompareTo(other.Number);

    /// <summary>The day as YYYY-MM-DD.</summary>
    public override string ToString() => LocalDatePattern.Iso.Format(Date);

    /// <summary>The day as a person writes it in a sentence: 10 September 2026.</summary>
    public string ToSentence() => Date.ToString("d MMMM uuuu", CultureInfo.InvariantCulture);
}
