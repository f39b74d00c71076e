using System.Globalization;
using CsvHelper;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Explanations;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Work;

/// <summary>The work calendar as CSV: one line a line of work, every line with the caution.</summary>
internal static class WorkCsv
{
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    private static readonly string[] Header =
    [
        "id", "date", "time", "session", "kind", "step", "animal", "pen", "state", "clause", "protocol", "startedOn", "count",
        "offHours", "assumed", "overdue", "reasons", "caution",
    ];

    public static string Write(WorkCalendarAnswer calendar)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using var csv = new CsvWriter(text, CultureInfo.InvariantCulture);
        WriteLine(csv, Header);
        foreach (var item in calendar.Items)
        {
            WriteLine(csv, Cells(item));
        }

        csv.Flush();
        return text.ToString();
    }

    private static string?[] Cells(WorkItemContract item) =>
    [
        item.Id, Text(item.Date), item.Time is { } time ? Clock.Format(time) : null, item.Session, item.Kind, item.Step, item.Animal, item.Pen,
        item.State, item.Clause, item.Plan?.Protocol, Text(item.Plan?.StartedOn), item.Count?.ToString(CultureInfo.InvariantCulture),
        Text(item.OffHours), Text(item.Assumed), Text(item.Overdue),
        string.Join("; ", item.Reasons.Select(r => $"{r.Rule}: {r.Text}")), CautionLine.Text,
    ];

    private static string? Text(LocalDate? date) => date is { } day ? Day.From(day).ToString() : null;

    private static string Text(bool? flag) => flag == true ? "true" : "false";

    private static void WriteLine(CsvWriter csv, string?[] cells)
    {
        foreach (var cell in cells)
        {
            csv.WriteField(cell);
        }

        csv.NextRecord();
    }
}
