using System.Globalization;
using NodaTime;
using ReproLink.Api.Explanations;
using ReproLink.Api.Transfer;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Figures;

/// <summary>Figures as CSV: one line a value, never without numerator, denominator and what was left out.</summary>
internal static class FigureCsv
{
    private static readonly string[] FigureHeader =
    [
        "figure", "name", "rule", "line", "label", "unit", "numerator", "denominator", "value", "median", "low", "high", "method", "noValue", "pending",
        "leftOut", "from", "to", "asOf", "waitingPeriod", "caution",
    ];

    private static readonly string[] AnimalHeader = ["figure", "line", "animal", "date", "counts", "reason", "days", "fact", "caution"];

    public static string Write(FiguresAnswer answer) => CsvSheet.Write(FigureHeader, answer.Figures.SelectMany(f => f.Lines.Select(l => Cells(answer, f, l))));

    public static string Write(FigureAnimalsAnswer answer) => CsvSheet.Write(AnimalHeader, answer.Animals.Select(a => (string?[])
        [answer.Figure, a.Line, a.Animal, Text(a.Date), a.Counts, a.Reason, a.Days?.ToString(CultureInfo.InvariantCulture), a.Fact, CautionLine.Text]));

    private static string?[] Cells(FiguresAnswer answer, FigureAnswer figure, FigureLineAnswer line) =>
    [
        figure.Figure, figure.Name, figure.Rule, line.Line, line.Label, line.Unit, Text(line.Numerator), Text(line.Denominator), Text(line.Value),
        Text(line.Median), Text(line.Interval?.Low), Text(line.Interval?.High), line.Method, line.NoValue, line.Pending == true ? "true" : "false",
        string.Join("; ", line.LeftOut.Select(l => $"{l.Count} {l.Reason}")), Text(answer.From), Text(answer.To), Text(answer.AsOf), Text(answer.WaitingPeriod), CautionLine.Text,
    ];

    private static string? Text(double? number) => number?.ToString(CultureInfo.InvariantCulture);

    private static string Text(LocalDate date) => Day.From(date).ToString();
}
