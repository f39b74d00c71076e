using System.Collections.Frozen;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Commands.Importing;
using ReproLink.Api.Facts;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Commands.Demo;

/// <summary>One line of the demo herd, dated.</summary>
/// <param name="Day">The last day it speaks of: nobody could have known it sooner.</param>
/// <param name="Known">The instant it was reported; absent = nobody waited for it.</param>
/// <param name="Item">The line as the service would receive it.</param>
internal sealed record OffsetRow(Day Day, Instant? Known, BatchItem Item);

/// <summary>Turns the demo's lines, which count days from today, into dated ones.</summary>
internal sealed class OffsetRows(Day today, DateTimeZone zone)
{
    private static readonly LocalTime ReportTime = new(17, 0);

    private static readonly string[] Offsets = ["offset", "untilOffset", "bornOffset", "reportedAfter"];

    private static readonly CsvShape Facts = FactCsv.Shape with
    {
        Columns = FactCsv.Shape.Columns.Concat(Offsets).Append("weekdays").ToFrozenSet(),
        Numbers = FactCsv.Shape.Numbers.Concat(Offsets).ToFrozenSet(),
    };

    private static readonly CsvShape Results = new(
        FrozenSet.Create("sourceId", "animal", "tube", "offset", "weekdays", "reportedAfter", "method", "specimen", "outcome", "value", "unit", "assay"),
        Numbers: FrozenSet.Create("offset", "reportedAfter", "value"),
        Truths: FrozenSet<string>.Empty,
        Lists: FrozenSet<string>.Empty);

    public Task<IReadOnlyList<OffsetRow>> OfFacts(byte[] csv) => Read(csv, Facts, "date");

    public Task<IReadOnlyList<OffsetRow>> OfResults(byte[] csv) => Read(csv, Results, "sampled");

    private async Task<IReadOnlyList<OffsetRow>> Read(byte[] csv, CsvShape shape, string date)
    {
        var lines = await CsvFile.Read(csv, shape);
        return [.. lines.Select(line => Dated(line, JsonObject.Create(line.Element)!, date))];
    }

    private OffsetRow Dated(BatchItem line, JsonObject row, string date)
    {
        var day = Day.Earliest;
        Instant? known = null;
        if (Taken(row, "offset") is { } offset)
        {
            day = Snapped(today + offset, row);
            row[date] = day.ToString();
        }

        if (Taken(row, "reportedAfter") is { } after)
        {
            known = (day + after).Date.At(ReportTime).InZoneLeniently(zone).ToInstant();
            row["reported"] = InstantPattern.ExtendedIso.Format(known.Value);
        }

        var until = Replace(row, "untilOffset", "until");
        var born = Replace(row, "bornOffset", "born");
        return new OffsetRow(Day.Max(day, Day.Max(until, born)), known, line with { Element = JsonSerializer.SerializeToElement(row) });
    }

    // Blood is drawn on sampling days: the last of the named weekdays at or before the day.
    private static Day Snapped(Day day, JsonObject row)
    {
        if (!row.Remove("weekdays", out var named))
        {
            return day;
        }

        var weekdays = named!.GetValue<string>().Split(' ');
        while (!weekdays.Contains(day.Weekday.ToString().ToLower(CultureInfo.InvariantCulture)))
        {
            day -= 1;
        }

        return day;
    }

    private Day Replace(JsonObject row, string offset, string name)
    {
        if (Taken(row, offset) is not { } days)
        {
            return Day.Earliest;
        }

        row[name] = (today + days).ToString();
        return today + days;
    }

    private static int? Taken(JsonObject row, string name) => row.Remove(name, out var value) ? value!.GetValue<int>() : null;
}
