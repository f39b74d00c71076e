using OxyPlot;

namespace ReproLink.Web.Plots;

/// <summary>
/// The colours of plots: as painted on paper, each with the class by which the style sheet repaints it on a dark screen.
/// </summary>
internal static class PlotColours
{
    public static readonly OxyColor Ink = OxyColor.FromRgb(0x1d, 0x23, 0x21);
    public static readonly OxyColor Line = OxyColor.FromRgb(0x8a, 0x85, 0x73);

    /// <summary>Stands for hatching: what is pending.</summary>
    public static readonly OxyColor Hatched = OxyColor.FromRgb(1, 2, 3);

    /// <summary>Series in their order; each also has a dash of its own, for those who see or print no colour.</summary>
    public static readonly OxyColor[] Series =
        [OxyColor.FromRgb(0x1c, 0x5a, 0x52), OxyColor.FromRgb(0x8c, 0x2f, 0x12), OxyColor.FromRgb(0x6b, 0x4a, 0x9c), OxyColor.FromRgb(0x8a, 0x61, 0x00)];

    public static readonly LineStyle[] Dashes = [LineStyle.Solid, LineStyle.Dash, LineStyle.Dot, LineStyle.DashDot];

    private static readonly (OxyColor Colour, string Name)[] Names =
        [(Ink, "ink"), (Line, "line"), (Series[0], "one"), (Series[1], "two"), (Series[2], "three"), (Series[3], "four")];

    /// <summary>The class of a colour as the library writes it, e.g. <c>rgb(28,90,82)</c>; null = none of ours.</summary>
    public static string? NameOf(string written) => Array.Find(Names, n => Written(n.Colour) == written).Name;

    public static bool IsHatched(string written) => written == Written(Hatched);

    private static string Written(OxyColor colour) => FormattableString.Invariant($"rgb({colour.R},{colour.G},{colour.B})");
}
