using System.Globalization;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Explanations;
using ReproLink.Api.Transfer;
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

    public static string Write(WorkCalendarAnswer calendar) => CsvSheet.Write(Header, calendar.Items.Select(Cells));

    private static string?[] Cells(WorkItemContract item) =>
    [
        item.Id, Text(item.Date), item.Time is { } time ? Clock.Format(time) : null, item.Session, item.Kind, item.Step, item.Animal, item.Pen,
        item.State, item.Clause, item.Plan?.Protocol, Text(item.Plan?.StartedOn), item.Count?.ToString(CultureInfo.InvariantCulture),
        Text(item.OffHours), Text(item.Assumed), Text(item.Overdue),
        string.Join("; ", item.Reasons.Select(r => $"{r.Rule}: {r.Text}")), CautionLine.Text,
    ];

    private static string? Text(LocalDate? date) => date is { } day ? Day.From(day).ToString() : null;

    private static string Text(bool? flag) => flag == true ? "true" : "false";
}
