using System.Globalization;
using ReproLink.Calendar.Figures.Estimates;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <summary>Numbers with their limits, as people read them.</summary>
public static class SayNumber
{
    /// <summary>A number with a fixed count of decimals.</summary>
    public static string Of(double value, int digits = 1)
    {
        // No "-0.0": what rounds to nothing has no sign.
        var rounded = Math.Round(value, digits, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("F" + digits.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).Replace("-", "−", StringComparison.Ordinal);
    }

    /// <summary>A number with its sign.</summary>
    public static string Signed(double value, int digits = 1) => Of(value, digits) is var text && text[0] != '−' && value > 0 ? "+" + text : text;

    /// <summary>Limits; empty when none are known.</summary>
    /// <param name="estimate">The estimate.</param>
    /// <param name="scale">What the number is shown times: 100 for per cent.</param>
    /// <param name="digits">Decimals.</param>
    public static string Limits(Estimate estimate, double scale = 1, int digits = 1) => estimate?.Limits is not { } limits ? ""
        : double.IsInfinity(limits.High) ? T("figures.from-no-upper-limit", Of(scale * limits.Low, digits))
        : T("figures.to", Of(scale * limits.Low, digits), Of(scale * limits.High, digits));

    /// <summary>Where a number comes from.</summary>
    public static string Origin(EstimateOrigin origin) => origin switch
    {
        EstimateOrigin.Herd => T("figures.counted-in-this-herd"),
        EstimateOrigin.Published => T("figures.published"),
        EstimateOrigin.Given => T("common.given"),
        EstimateOrigin.Programme => T("figures.dated-by-the-programme"),
        _ => T("figures.computed"),
    };
}
