using System.Globalization;
using NodaTime.Text;

namespace ReproLink.Api.Intake;

/// <summary>How dates of a column are written, where only one way reads them all.</summary>
internal static class DateGuess
{
    private static readonly string[] Ways = ["yyyy-MM-dd", "dd/MM/yyyy", "MM/dd/yyyy", "dd.MM.yyyy", "dd-MM-yyyy", "d/M/yyyy", "M/d/yyyy", "yyyyMMdd"];

    /// <summary>The one way; or that there are several, which read them as different days: then nobody but the sender knows.</summary>
    public static (string? Way, bool Ambiguous) Of(IReadOnlyList<string> dates)
    {
        var fitting = dates.Count == 0 ? [] : Ways.Where(way => dates.All(d => Read(way, d) is not null)).ToList();
        var different = fitting.Select(way => string.Join(',', dates.Select(d => Read(way, d)))).Distinct().Count() > 1;
        return different ? (null, true) : (fitting.FirstOrDefault(), false);
    }

    private static string? Read(string way, string date)
    {
        var parsed = LocalDatePattern.Create(way.Replace('y', 'u'), CultureInfo.InvariantCulture).Parse(date);
        return parsed.Success ? LocalDatePattern.Iso.Format(parsed.Value) : null;
    }
}
