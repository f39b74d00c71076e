using System.Globalization;
using System.Net;
using System.Text;
using NodaTime.Text;
using ReproLink.Api.Rounds;
using ReproLink.Api.Transfer;
using ReproLink.Calendar.Rounds;
using ReproLink.Records;

namespace ReproLink.Api.Labels;

/// <summary>What goes into the box with the tubes: for the laboratory's computer, and for its people.</summary>
internal static class Manifest
{
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    private static readonly string[] Header =
        ["herd", "round", "dispatch", "tube", "animal", "daysPostService", "specimen", "drawnOn", "drawnAt", "drawnBy", "fill", "question", "storage"];

    private static readonly string[] Columns = ["Tube", "Animal", "Days post-service", "Specimen", "Drawn", "By", "Fill", "Question", "Storage"];

    public static string Csv(Herd herd, Round round, IReadOnlyList<Tube> tubes) => CsvSheet.Write(Header, tubes.Select(t => Cells(herd, round, t)));

    public static string Html(Herd herd, Round round, IReadOnlyList<Tube> tubes)
    {
        var page = new StringBuilder($$"""
            <!doctype html>
            <html lang="en-GB"><head><meta charset="utf-8"><title>Manifest {{RoundVocabulary.Name(round.Number)}} {{Text(herd.Name)}}</title>
            <style>
            @page { margin: 12mm }
            body { font-family: "Noto Sans", "DejaVu Sans", Arial, sans-serif; font-size: 10pt; color: #000; background: #fff }
            table { border-collapse: collapse; width: 100% } thead { display: table-header-group } tr { break-inside: avoid }
            th, td { border: 0.2mm solid #555; padding: 1mm 1.5mm; text-align: left; overflow-wrap: anywhere }
            </style></head><body>
            <h1>Blood samples for a pregnancy test</h1>
            <p>{{Text(herd.Name)}}, round {{RoundVocabulary.Name(round.Number)}} of {{round.Day}}{{(round.Name is { } name ? ", " + Text(name) : "")}}; {{tubes.Count}} {{(tubes.Count == 1 ? "tube" : "tubes")}}.</p>

            """);
        foreach (var dispatch in round.Dispatches.Where(d => tubes.Any(t => t.Standing.Dispatched?.Dispatch == d.Number)))
        {
            page.Append(CultureInfo.InvariantCulture, $"<p>Dispatch {dispatch.Number}: sent {InstantPattern.General.Format(dispatch.At)} by {Text(dispatch.By)}.</p>\n");
        }

        page.Append("<table><thead><tr>");
        page.AppendJoin("", Columns.Select(h => $"<th scope=\"col\">{h}</th>"));
        page.Append("</tr></thead><tbody>\n");
        foreach (var cells in tubes.Select(t => Cells(herd, round, t)))
        {
            string?[] shown = [cells[3], cells[4], cells[5], cells[6], $"{cells[7]} {cells[8]}", cells[9], cells[10], cells[11], cells[12]];
            page.Append("<tr>").AppendJoin("", shown.Select(c => $"<td><bdi>{Text(c ?? "")}</bdi></td>")).Append("</tr>\n");
        }

        return page.Append("</tbody></table></body></html>\n").ToString();
    }

    private static string?[] Cells(Herd herd, Round round, Tube tube)
    {
        var drawn = tube.Standing.Marked!;
        return
        [
            herd.Name, RoundVocabulary.Name(round.Number), tube.Standing.Dispatched?.Dispatch.ToString(CultureInfo.InvariantCulture), tube.Name, tube.Animal,
            DaysPostService(round, tube)?.ToString(CultureInfo.InvariantCulture), round.Specimen, drawn.Day.ToString(),
            drawn.Time is { } time ? Clock.Format(time) : null, drawn.By, tube.Standing.State == TubeState.Short ? "short" : "full",
            RoundVocabulary.Question(tube.Plan.Need), Warning(tube),
        ];
    }

    // On the day of the draw, which may be another than that of the list.
    private static int? DaysPostService(Round round, Tube tube) => tube.Plan.DaysPostService + (tube.Standing.Marked!.Day - round.Day);

    private static string? Warning(Tube tube) => tube.Standing.IsSpoiled
        ? $"left {tube.Standing.Dispatched!.Day - tube.Standing.Marked!.Day} days after the draw: invalid"
        : null;

    private static string Text(string text) => WebUtility.HtmlEncode(text);
}
