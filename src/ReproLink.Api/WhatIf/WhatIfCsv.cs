using System.Globalization;
using CsvHelper;
using ReproLink.Api.Accuracy;
using ReproLink.Api.Explanations;
using ReproLink.Api.Reading;

namespace ReproLink.Api.WhatIf;

/// <summary>A comparison as CSV: one line a programme and figure, every line with the caution.</summary>
internal static class WhatIfCsv
{
    private static readonly string[] Header =
    [
        "programme", "figure", "unit", "value", "low", "high", "fromFirst", "fromFirstLow", "fromFirstHigh", "noValue", "caution",
    ];

    // A difference may be below nothing: a number is written as one. What people wrote is guarded.
    public static string Write(WhatIfAnswer answer)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using var csv = new CsvWriter(text, CultureInfo.InvariantCulture);
        var lines = answer.Programmes.SelectMany(programme => programme.Figures.Select(figure => Cells(programme.Name, figure)));
        foreach (var cells in lines.Prepend(Header))
        {
            foreach (var cell in cells)
            {
                csv.WriteField(cell);
            }

            csv.NextRecord();
        }

        csv.Flush();
        return text.ToString();
    }

    private static string?[] Cells(string programme, WhatIfFigureAnswer figure) =>
    [
        CellGuard.Apply(programme), figure.Figure, figure.Unit, .. Three(figure.Value), .. Three(figure.FromFirst), figure.Value.NoValue, CautionLine.Text,
    ];

    private static string?[] Three(EstimateContract? estimate) => [Text(estimate?.Value), Text(estimate?.Low), Text(estimate?.High)];

    private static string? Text(double? number) => number?.ToString("0.######", CultureInfo.InvariantCulture);
}
