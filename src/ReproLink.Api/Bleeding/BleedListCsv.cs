using System.Globalization;
using CsvHelper;
using ReproLink.Api.Explanations;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Bleeding;

/// <summary>The list as CSV: one line an animal and day, every line with the caution.</summary>
internal static class BleedListCsv
{
    private static readonly string[] Header =
    [
        "date", "weekday", "pen", "animal", "identifiers", "daysPostService", "daysInMilk", "parity", "need", "opens", "target", "closes",
        "changesOn", "overdue", "servesStep", "servesDate", "reasons", "caution",
    ];

    public static string Write(BleedListAnswer list)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using var csv = new CsvWriter(text, CultureInfo.InvariantCulture);
        WriteLine(csv, Header);
        foreach (var day in list.Days)
        {
            foreach (var animal in day.Animals)
            {
                WriteLine(csv, Cells(day, animal));
            }
        }

        csv.Flush();
        return text.ToString();
    }

    private static string?[] Cells(BleedDayAnswer day, BleedAnimalAnswer animal) =>
    [
        Text(day.Date), day.Weekday, animal.Pen, animal.Animal,
        string.Join(';', animal.Identifiers.Select(i => $"{i.Scheme}={i.Id}")),
        Text(animal.DaysPostService), Text(animal.DaysInMilk), Text(animal.Parity), animal.Need,
        Text(animal.Window?.Opens), Text(animal.Window?.Target), Text(animal.Window?.Closes), Text(animal.Window?.ChangesOn),
        animal.Overdue ? "true" : "false", animal.Serves?.Step, Text(animal.Serves?.Date),
        string.Join("; ", animal.Reasons.Select(r => $"{r.Rule}: {r.Text}")), CautionLine.Text,
    ];

    private static string? Text(NodaTime.LocalDate? date) => date is { } day ? Day.From(day).ToString() : null;

    private static string? Text(int? number) => number?.ToString(CultureInfo.InvariantCulture);

    private static void WriteLine(CsvWriter csv, string?[] cells)
    {
        foreach (var cell in cells)
        {
            csv.WriteField(cell);
        }

        csv.NextRecord();
    }
}
