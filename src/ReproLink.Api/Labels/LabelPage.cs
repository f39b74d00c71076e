using System.Globalization;
using System.Net;
using System.Text;
using ReproLink.Calendar.Rounds;
using ReproLink.Records;

namespace ReproLink.Api.Labels;

/// <summary>
/// Labels as a page to print: sizes in millimetres, nothing loaded from anywhere. A name that does not fit is shortened where
/// everybody sees it.
/// </summary>
internal static class LabelPage
{
    private const double Padding = 1.5;
    private const double LargestQr = 22;
    private const double SmallestLetters = 1.9;

    public static string Write(Herd herd, Round round, IReadOnlyList<Tube> tubes, LabelSheet sheet, int skip)
    {
        var page = new StringBuilder();
        page.Append(CultureInfo.InvariantCulture, $$"""
            <!doctype html>
            <html lang="en-GB"><head><meta charset="utf-8"><title>Labels R{{round.Number}} {{Text(herd.Name)}}</title>
            <style>
            @page { size: {{Mm(sheet.PageWidth)}} {{Mm(sheet.PageHeight)}}; margin: 0 }
            * { box-sizing: border-box }
            body { margin: 0; font-family: "Noto Sans", "DejaVu Sans", Arial, sans-serif; color: #000; background: #fff }
            .sheet { position: relative; width: {{Mm(sheet.PageWidth)}}; height: {{Mm(sheet.PageHeight)}}; overflow: hidden; break-after: page }
            .sheet:last-child { break-after: auto }
            .label { position: absolute; width: {{Mm(sheet.Width)}}; height: {{Mm(sheet.Height)}}; padding: {{Mm(Padding)}}; display: flex; align-items: center; overflow: hidden }
            .words { flex: 1; min-width: 0 }
            .words div { white-space: nowrap; overflow: hidden; text-overflow: ellipsis; line-height: 1.15 }
            .animal, .tube { font-weight: bold }
            .qr { flex: none; fill: #000 }
            @media screen { .sheet { margin: 4mm; outline: 0.2mm solid #999 } .label { outline: 0.1mm dotted #bbb } }
            </style></head><body>

            """);
        for (var first = -skip; first < tubes.Count; first += sheet.APage)
        {
            page.Append("<section class=\"sheet\">\n");
            for (var position = 0; position < sheet.APage && first + position < tubes.Count; position++)
            {
                if (first + position >= 0)
                {
                    Label(page, herd, round, tubes[first + position], sheet, position);
                }
            }

            page.Append("</section>\n");
        }

        return page.Append("</body></html>\n").ToString();
    }

    private static void Label(StringBuilder page, Herd herd, Round round, Tube tube, LabelSheet sheet, int position)
    {
        var (left, top) = sheet.Place(position);
        var inner = sheet.Height - (2 * Padding);
        var qr = Math.Min(Math.Min(inner, LargestQr), sheet.Width * 0.42);
        var room = sheet.Width - (2 * Padding) - qr;
        page.Append(CultureInfo.InvariantCulture, $"""<div class="label" style="left:{Mm(left)};top:{Mm(top)}"><div class="words">""");
        Line(page, "herd", herd.Name, room, inner * 0.15, keepEnd: false);
        Line(page, "animal", tube.Animal, room, inner * 0.27, keepEnd: true);
        Line(page, "date", tube.Standing.Marked?.Day.ToString() ?? round.Day.ToString(), room, inner * 0.15, keepEnd: true);
        Line(page, "tube", tube.Name, room, inner * 0.19, keepEnd: true);
        page.Append("</div>").Append(QrMark.Svg(tube.Name, qr)).Append("</div>\n");
    }

    private static void Line(StringBuilder page, string kind, string text, double room, double size, bool keepEnd)
    {
        var fitted = LabelText.Fit(text, room, size, Math.Min(SmallestLetters, size), keepEnd);
        var whole = fitted.Shortened ? $" title=\"{Text(text)}\"" : "";
        // Isolated: a name written from right to left does not turn the rest of the label round.
        page.Append(CultureInfo.InvariantCulture, $"<div class=\"{kind}\" style=\"font-size:{Mm(fitted.Size)}\"{whole}><bdi>{Text(fitted.Text)}</bdi></div>");
    }

    private static string Mm(double millimetres) => string.Create(CultureInfo.InvariantCulture, $"{millimetres:0.##}mm");

    private static string Text(string text) => WebUtility.HtmlEncode(text);
}
