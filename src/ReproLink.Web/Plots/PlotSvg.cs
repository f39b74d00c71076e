using System.Globalization;
using System.Xml.Linq;
using OxyPlot;

namespace ReproLink.Web.Plots;

/// <summary>
/// Writes a plot as SVG for a page: with title and description for a screen reader, ids of its own, and no inline style, so that the
/// style sheet paints it for screen, dark screen and print, and the page's policy lets it stand.
/// </summary>
public static class PlotSvg
{
    private const double Width = 760;
    private const double Height = 340;
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>The SVG.</summary>
    /// <param name="model">What is plotted, made by <see cref="Chart"/>.</param>
    /// <param name="id">Unique on the page.</param>
    /// <param name="title">What it shows.</param>
    /// <param name="description">What is to be seen, for those who do not see it.</param>
    public static string Write(PlotModel model, string id, string title, string description)
    {
        var exporter = new SvgExporter
        {
            Width = Width,
            Height = Height,
            IsDocument = false,
            UseVerticalTextAlignmentWorkaround = true,
            TextMeasurer = new PageText(),
        };
        var root = XDocument.Parse(exporter.ExportToString(model)).Root!;
        foreach (var element in root.Descendants().ToList())
        {
            Paint(element, id);
        }

        root.RemoveAttributes();
        root.Add(
            new XAttribute("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {Width} {Height}")), new XAttribute("class", "plot"),
            new XAttribute("role", "img"), new XAttribute("aria-labelledby", $"{id}-title {id}-desc"));
        root.AddFirst(
            new XElement(Svg + "title", new XAttribute("id", $"{id}-title"), title),
            new XElement(Svg + "desc", new XAttribute("id", $"{id}-desc"), description),
            Hatching(id));
        return root.ToString(SaveOptions.DisableFormatting);
    }

    private static void Paint(XElement element, string id)
    {
        if (element.Attribute("style") is { } style)
        {
            foreach (var part in style.Value.Split(';', StringSplitOptions.RemoveEmptyEntries))
            {
                var colon = part.IndexOf(':', StringComparison.Ordinal);
                element.SetAttributeValue(part[..colon].Trim(), part[(colon + 1)..].Trim());
            }

            style.Remove();
        }

        element.Attribute("font-family")?.Remove();
        if (element.Attribute("id") is { } own)
        {
            own.Value = $"{id}-{own.Value}";
        }

        // Words are never cut off, however wide the reader's letters.
        element.SetAttributeValue("clip-path", element.Elements(Svg + "text").Any()
            ? null
            : element.Attribute("clip-path")?.Value.Replace("#", $"#{id}-", StringComparison.Ordinal));

        var classes = new[] { Class(element, "fill", "f", id), Class(element, "stroke", "s", id) }.Where(c => c is not null).ToList();
        if (classes.Count > 0)
        {
            element.SetAttributeValue("class", string.Join(' ', classes));
        }
    }

    private static string? Class(XElement element, string attribute, string prefix, string id)
    {
        if (element.Attribute(attribute) is not { } colour)
        {
            return null;
        }

        if (PlotColours.IsHatched(colour.Value))
        {
            colour.Value = $"url(#{id}-hatch)";
            return null;
        }

        return PlotColours.NameOf(colour.Value) is { } name ? $"{prefix}-{name}" : null;
    }

    private static XElement Hatching(string id) => new(Svg + "defs",
        new XElement(Svg + "pattern", new XAttribute("id", $"{id}-hatch"), new XAttribute("width", 8), new XAttribute("height", 8),
            new XAttribute("patternUnits", "userSpaceOnUse"), new XAttribute("patternTransform", "rotate(45)"),
            new XElement(Svg + "line", new XAttribute("x1", 0), new XAttribute("y1", 0), new XAttribute("x2", 0), new XAttribute("y2", 8),
                new XAttribute("class", "s-one"), new XAttribute("stroke", "rgb(28,90,82)"), new XAttribute("stroke-width", 5))));

    // The library measures narrow letters; a page is written in whatever the reader has, and names must not run into each other.
    private sealed class PageText() : PdfRenderContext(Width, Height, OxyColors.Transparent)
    {
        private const double Wider = 1.5;

        public override OxySize MeasureText(string text, string fontFamily, double fontSize, double fontWeight)
        {
            var size = base.MeasureText(text, fontFamily, fontSize, fontWeight);
            return new OxySize(size.Width * Wider, size.Height);
        }
    }
}
