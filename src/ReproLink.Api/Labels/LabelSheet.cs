using ReproLink.Api.Reading;

namespace ReproLink.Api.Labels;

/// <summary>Where labels lie on a page, in millimetres.</summary>
/// <param name="PageWidth">Width of the page.</param>
/// <param name="PageHeight">Height of the page.</param>
/// <param name="Rows">Labels down the page.</param>
/// <param name="Columns">Labels across the page.</param>
/// <param name="Top">Paper above the first row.</param>
/// <param name="Left">Paper beside the first column.</param>
/// <param name="GapAcross">Paper between columns.</param>
/// <param name="GapDown">Paper between rows.</param>
/// <param name="Width">Width of a label.</param>
/// <param name="Height">Height of a label.</param>
internal sealed record LabelSheet(
    double PageWidth, double PageHeight, int Rows, int Columns, double Top, double Left, double GapAcross, double GapDown, double Width, double Height)
{
    private const double SmallestWidth = 20;
    private const double SmallestHeight = 12;
    private const int MostRows = 30;
    private const int MostColumns = 10;

    private static readonly LabelSheet A4 = new(210, 297, 8, 3, 0.5, 0, 0, 0, 70, 37);
    private static readonly LabelSheet Letter = new(215.9, 279.4, 10, 3, 12.7, 4.8, 3.1, 0, 66.7, 25.4);
    private static readonly LabelSheet Roll = new(50, 25, 1, 1, 0, 0, 0, 0, 50, 25);

    public static readonly string[] Names = ["a4-3x8", "letter-3x10", "roll-50x25", "custom"];

    public int APage => Rows * Columns;

    /// <summary>The sheet a query asks for: one of the known ones, with margins to suit the printer, or one of its own.</summary>
    public static LabelSheet Read(QueryReader query)
    {
        var name = query.Word("layout", Names);
        var known = name switch { "letter-3x10" => Letter, "roll-50x25" => Roll, _ => A4 };
        var paper = query.Word("paper", "a4", "letter", "roll");
        var (rows, columns) = (query.Integer("rows", 1, MostRows, known.Rows), query.Integer("columns", 1, MostColumns, known.Columns));
        var (top, left) = (query.Number("marginTop", 0, 100), query.Number("marginLeft", 0, 100));
        var (bottom, right) = (query.Number("marginBottom", 0, 100), query.Number("marginRight", 0, 100));
        var (across, down) = (query.Number("gapAcross", 0, 50), query.Number("gapDown", 0, 50));
        var (width, height) = (query.Number("width", SmallestWidth, 300), query.Number("height", SmallestHeight, 300));
        return name == "custom"
            ? Custom(query, paper, rows, columns, (top ?? 0, right ?? left ?? 0, bottom ?? top ?? 0, left ?? 0), (across ?? 0, down ?? 0), (width, height))
            : known with { Top = top ?? known.Top, Left = left ?? known.Left };
    }

    // What is left of the page between the margins is shared out, unless the size of a label is given.
    private static LabelSheet Custom(
        QueryReader query, string? paper, int rows, int columns, (double Top, double Right, double Bottom, double Left) margin,
        (double Across, double Down) gap, (double? Width, double? Height) size)
    {
        var page = paper switch { "letter" => (Letter.PageWidth, Letter.PageHeight), "roll" => (size.Width ?? Roll.Width, size.Height ?? Roll.Height), _ => (A4.PageWidth, A4.PageHeight) };
        var width = size.Width ?? ((page.Item1 - margin.Left - margin.Right - (gap.Across * (columns - 1))) / columns);
        var height = size.Height ?? ((page.Item2 - margin.Top - margin.Bottom - (gap.Down * (rows - 1))) / rows);
        if (width < SmallestWidth || height < SmallestHeight
            || margin.Left + (columns * width) + (gap.Across * (columns - 1)) > page.Item1 + 0.01
            || margin.Top + (rows * height) + (gap.Down * (rows - 1)) > page.Item2 + 0.01)
        {
            query.Refuse("layout", "custom", $"labels of at least {SmallestWidth} by {SmallestHeight} mm that fit on the page",
                $"{rows} rows and {columns} columns make labels of {width:0.#} by {height:0.#} mm, which do not fit or are too small to read.");
        }

        return new LabelSheet(page.Item1, page.Item2, rows, columns, margin.Top, margin.Left, gap.Across, gap.Down, width, height);
    }

    public (double Left, double Top) Place(int position) =>
        (Left + (position % Columns * (Width + GapAcross)), Top + (position / Columns * (Height + GapDown)));
}
