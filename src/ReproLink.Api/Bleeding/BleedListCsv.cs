using System.Globalization;
using ReproLink.Api.Explanations;
using ReproLink.Api.Transfer;
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

    public static string Write(BleedListAnswer list) =>
        CsvSheet.Write(Header, list.Days.SelectMany(day => day.Animals.Select(animal => Cells(day, animal))));

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
}
