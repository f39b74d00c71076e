using System.Globalization;
using System.Text;
using QRCoder;

namespace ReproLink.Api.Labels;

/// <summary>A text as a QR code: one path of an SVG, its quiet zone included.</summary>
internal static class QrMark
{
    public static string Svg(string text, double millimetres)
    {
        using var generator = new QRCodeGenerator();
        // Level M still reads with a seventh of it smeared.
        using var code = generator.CreateQrCode(text, QRCodeGenerator.ECCLevel.M);
        var rows = code.ModuleMatrix;
        var path = new StringBuilder();
        for (var y = 0; y < rows.Count; y++)
        {
            for (var x = 0; x < rows.Count; x++)
            {
                if (!rows[y][x])
                {
                    continue;
                }

                var start = x;
                while (x + 1 < rows.Count && rows[y][x + 1])
                {
                    x++;
                }

                path.Append(CultureInfo.InvariantCulture, $"M{start} {y}h{x - start + 1}v1h-{x - start + 1}z");
            }
        }

        return string.Create(CultureInfo.InvariantCulture,
            $"""<svg class="qr" role="img" aria-label="{text}" viewBox="0 0 {rows.Count} {rows.Count}" style="width:{millimetres:0.##}mm;height:{millimetres:0.##}mm" shape-rendering="crispEdges"><path d="{path}"/></svg>""");
    }
}
