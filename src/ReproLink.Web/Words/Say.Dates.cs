using System.Globalization;
using NodaTime;
using ReproLink.Calendar.Dates;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <content>Days and times as the reader writes them.</content>
public static partial class Say
{
    /// <summary>Monday 5 October 2026.</summary>
    public static string LongDay(Day day) => Written("date.long.", day, Weekday(day.Weekday), OfDates($"month.{day.Date.Month}"));

    /// <summary>Mon 5 Oct.</summary>
    public static string ShortDay(Day day) => Written("date.short.", day, WeekdayShort(day.Weekday), MonthShort(day.Date.Month));

    /// <summary>Mon 5 Oct 2026.</summary>
    public static string DatedDay(Day day) => Written("date.long.", day, WeekdayShort(day.Weekday), MonthShort(day.Date.Month));

    /// <summary>5 Oct 2026.</summary>
    public static string ShortDate(Day day) => Written("date.dated.", day, "", MonthShort(day.Date.Month));

    /// <summary>5 Oct.</summary>
    public static string DayOfYear(Day day) => Written("date.day.", day, "", T($"month.short.{day.Date.Month}"));

    /// <summary>A time of day.</summary>
    public static string Clock(LocalTime time) => Reader.Current.TwelveHours
        ? string.Format(CultureInfo.InvariantCulture, OfDates(time.Hour < 12 ? "time.am" : "time.pm"), time.ToString("h':'mm", CultureInfo.InvariantCulture))
        : time.ToString("HH':'mm", CultureInfo.InvariantCulture);

    /// <summary>Monday.</summary>
    public static string Weekday(IsoDayOfWeek day) => OfDates($"weekday.{(int)day}");

    /// <summary>Mon.</summary>
    public static string WeekdayShort(IsoDayOfWeek day) => OfDates($"weekday.short.{(int)day}");

    /// <summary>Oct.</summary>
    public static string MonthShort(int month) => OfDates($"month.short.{month}");

    // 0 weekday, 1 day, 2 month, 3 year, 4 month in two digits, 5 day in two digits.
    private static string Written(string form, Day day, string weekday, string month)
    {
        var date = day.Date;
        return string.Format(CultureInfo.InvariantCulture, OfDates(form + Reader.Current.Dates), weekday, date.Day, month, date.Year, $"{date.Month:00}", $"{date.Day:00}");
    }
}
