using System.Globalization;
using ReproLink.Calendar.Figures;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <summary>A figure in words: never without what it is out of.</summary>
public static class SayFigure
{
    /// <summary>The value alone, with its unit.</summary>
    public static string Value(FigureLine line) => line.Value is not { } value ? T("figures.no-value", line.NoValue) : line.Unit switch
    {
        FigureUnit.Share => Percent(value),
        FigureUnit.Days => T("figures.days", Number(value)),
        FigureUnit.Ratio => Number(value, "0.00"),
        _ => Number(value, "0.00"),
    };

    /// <summary>What it is out of.</summary>
    public static string OutOf(FigureLine line) => line.Unit switch
    {
        FigureUnit.Days => T("figures.counted", line.Denominator),
        FigureUnit.Ratio => T("figures.for", Count(line.Numerator), Count(line.Denominator)),
        _ => T("figures.of", Count(line.Numerator), Count(line.Denominator)),
    };

    /// <summary>Its interval.</summary>
    public static string Interval(FigureLine line) => line.Limits is not { } limits ? "–" : line.Unit switch
    {
        FigureUnit.Share => $"{Hundredths(limits.Low)}–{Percent(limits.High)}",
        FigureUnit.Days => T("figures.interval-days", Number(limits.Low), Number(limits.High)),
        _ => $"{Number(limits.Low, "0.00")}–{Number(limits.High, "0.00")}",
    };

    /// <summary>What was left out, and why.</summary>
    public static string LeftOut(FigureLine line) => line.LeftOut.Count == 0
        ? "–"
        : string.Join("; ", line.LeftOut.Select(l => $"{Count(l.Count)} {LeftOutWords.Sentence(l.Reason)}"));

    /// <summary>The whole in one breath: 39 % (38 of 97, interval 30–49 %).</summary>
    public static string Whole(FigureLine line) => line.Value is null
        ? Value(line)
        : line.Limits is null ? T("figures.whole", Value(line), OutOf(line)) : T("figures.whole-interval", Value(line), OutOf(line), Interval(line));

    // Below ten the first decimal tells 0.3 % from none.
    private static string Percent(double share) => Hundredths(share) + " %";

    private static string Hundredths(double share) => Number(share * 100, share < 0.0995 ? "0.#" : "0");

    private static string Count(int count) => count.ToString("N0", CultureInfo.InvariantCulture);

    private static string Number(double value, string form = "0") => value.ToString(form, CultureInfo.InvariantCulture);
}
