using System.Globalization;
using OxyPlot;
using OxyPlot.Axes;
using OxyPlot.Legends;
using OxyPlot.Series;

namespace ReproLink.Web.Plots;

/// <summary>A point of a line.</summary>
/// <param name="X">Across.</param>
/// <param name="Y">Up.</param>
/// <param name="Low">Lower limit; null = no band here.</param>
/// <param name="High">Upper limit.</param>
public readonly record struct ChartPoint(double X, double Y, double? Low = null, double? High = null);

/// <summary>A line of a chart.</summary>
/// <param name="Name">Its name in the legend.</param>
/// <param name="Points">Its points, in order of X.</param>
/// <param name="Steps">Whether it runs in steps, as survival does, or straight.</param>
public sealed record ChartLine(string Name, IReadOnlyList<ChartPoint> Points, bool Steps = false);

/// <summary>A bar of a chart.</summary>
/// <param name="Label">Below it.</param>
/// <param name="Value">Its height; null = no bar: there is no value.</param>
/// <param name="Low">Lower end of its whisker; null = none.</param>
/// <param name="High">Upper end.</param>
/// <param name="Pending">Hatched: too recent to be known.</param>
public readonly record struct ChartBar(string Label, double? Value, double? Low = null, double? High = null, bool Pending = false);

/// <summary>A class whose shares stand on one another.</summary>
/// <param name="Label">Below it.</param>
/// <param name="Parts">Its parts, in the order of the names; they add up to its height.</param>
public sealed record StackedBars(string Label, IReadOnlyList<double> Parts);

/// <summary>The charts of the pages.</summary>
public static class Chart
{
    private const double BarWidth = 0.36;
    private const byte Faint = 45;

    /// <summary>Lines with their bands, 0 to 1 upwards.</summary>
    public static PlotModel Lines(string across, string up, double to, params IReadOnlyList<ChartLine> lines)
    {
        var model = Model(across, up, 0, to, 1);
        for (var i = 0; i < lines.Count; i++)
        {
            var colour = PlotColours.Series[i % PlotColours.Series.Length];
            model.Series.Add(Band(lines[i], colour));
            var series = lines[i].Steps ? new StairStepSeries() : new LineSeries();
            series.Title = lines[i].Name;
            series.Color = colour;
            series.LineStyle = PlotColours.Dashes[i % PlotColours.Dashes.Length];
            series.StrokeThickness = 2.5;
            series.Points.AddRange(lines[i].Points.Select(p => new DataPoint(p.X, p.Y)));
            model.Series.Add(series);
        }

        return WithLegend(model, lines.Count > 1);
    }

    /// <summary>Bars with whiskers; what is pending is hatched.</summary>
    public static PlotModel Bars(string across, string up, IReadOnlyList<ChartBar> bars, double top = 1)
    {
        ArgumentNullException.ThrowIfNull(bars);
        var model = Model(across, up, -0.6, Math.Max(bars.Count, 1) - 0.4, top);
        Label(model, [.. bars.Select(b => b.Label)]);
        var series = new RectangleBarSeries { StrokeThickness = 1, StrokeColor = PlotColours.Series[0] };
        for (var i = 0; i < bars.Count; i++)
        {
            if (bars[i].Value is { } value)
            {
                series.Items.Add(new RectangleBarItem(i - BarWidth, 0, i + BarWidth, value) { Color = bars[i].Pending ? PlotColours.Hatched : PlotColours.Series[0] });
            }
        }

        model.Series.Add(series);
        foreach (var (bar, i) in bars.Select((b, i) => (b, i)))
        {
            if (bar is { Low: { } low, High: { } high })
            {
                model.Series.Add(Whisker(i, low, high));
            }
        }

        return model;
    }

    /// <summary>Shares on one another.</summary>
    public static PlotModel Stacks(string across, string up, IReadOnlyList<string> names, IReadOnlyList<StackedBars> stacks)
    {
        ArgumentNullException.ThrowIfNull(names);
        ArgumentNullException.ThrowIfNull(stacks);
        var model = Model(across, up, -0.6, Math.Max(stacks.Count, 1) - 0.4, 1);
        Label(model, [.. stacks.Select(s => s.Label)]);
        for (var part = 0; part < names.Count; part++)
        {
            var colour = PlotColours.Series[part % PlotColours.Series.Length];
            var series = new RectangleBarSeries { Title = names[part], FillColor = colour, StrokeThickness = 1, StrokeColor = PlotColours.Line };
            for (var i = 0; i < stacks.Count; i++)
            {
                var below = stacks[i].Parts.Take(part).Sum();
                series.Items.Add(new RectangleBarItem(i - BarWidth, below, i + BarWidth, below + stacks[i].Parts[part]));
            }

            model.Series.Add(series);
        }

        return WithLegend(model, true);
    }

    private static PlotModel Model(string across, string up, double from, double to, double top)
    {
        var model = new PlotModel
        {
            TextColor = PlotColours.Ink,
            PlotAreaBorderColor = PlotColours.Line,
            PlotAreaBorderThickness = new OxyThickness(1, 0, 0, 1),
            Padding = new OxyThickness(4, 8, 12, 4),
        };
        model.Axes.Add(Axis(AxisPosition.Bottom, across, from, to, null));
        model.Axes.Add(Axis(AxisPosition.Left, up, 0, top, top <= 1 ? Percent : null));
        return model;
    }

    private static LinearAxis Axis(AxisPosition position, string title, double from, double to, Func<double, string>? label) => new()
    {
        Position = position,
        Title = title,
        Minimum = from,
        Maximum = to,
        TicklineColor = PlotColours.Line,
        MinorTickSize = 0,
        MajorGridlineStyle = position == AxisPosition.Left ? LineStyle.Solid : LineStyle.None,
        MajorGridlineColor = OxyColor.FromAColor(Faint, PlotColours.Line),
        FontSize = 13,
        AxisTitleDistance = position == AxisPosition.Left ? 16 : 8,
        LabelFormatter = label!,
    };

    private static void Label(PlotModel model, string[] labels)
    {
        var axis = (LinearAxis)model.Axes[0];
        // Where there are many, not every one is written.
        axis.MajorStep = Math.Max(1, Math.Ceiling(labels.Length / 9.0));
        axis.LabelFormatter = x => Math.Abs(x - Math.Round(x)) < 0.01 && x > -0.5 && x < labels.Length - 0.5 ? labels[(int)Math.Round(x)] : "";
    }

    private static AreaSeries Band(ChartLine line, OxyColor colour)
    {
        var band = new AreaSeries { Color = OxyColors.Transparent, Color2 = OxyColors.Transparent, Fill = OxyColor.FromAColor(Faint, colour), StrokeThickness = 0 };
        ChartPoint? before = null;
        foreach (var point in line.Points)
        {
            if (point is not { Low: { } low, High: { } high })
            {
                continue;
            }

            if (line.Steps && before is { } last)
            {
                band.Points.Add(new DataPoint(point.X, last.High!.Value));
                band.Points2.Add(new DataPoint(point.X, last.Low!.Value));
            }

            band.Points.Add(new DataPoint(point.X, high));
            band.Points2.Add(new DataPoint(point.X, low));
            before = point;
        }

        return band;
    }

    private static LineSeries Whisker(double x, double low, double high)
    {
        var whisker = new LineSeries { Color = PlotColours.Ink, StrokeThickness = 1.5 };
        foreach (var (dx, y) in new[] { (-0.12, low), (0.12, low), (0, low), (0, high), (-0.12, high), (0.12, high) })
        {
            whisker.Points.Add(new DataPoint(x + dx, y));
        }

        return whisker;
    }

    private static PlotModel WithLegend(PlotModel model, bool wanted)
    {
        if (wanted)
        {
            model.Legends.Add(new Legend
            {
                LegendPlacement = LegendPlacement.Outside,
                LegendPosition = LegendPosition.TopCenter,
                LegendOrientation = LegendOrientation.Horizontal,
                LegendFontSize = 13,
                LegendSymbolLength = 32,
            });
        }

        return model;
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{share * 100:0} %");
}
