using System.Globalization;

namespace ReproLink.Calendar.Rounds;

/// <summary>
/// Makes a text fit a label. The widths are those of a wide typeface in bold and never less than true: a text that fits here
/// fits on paper. What does not fit is shortened with an ellipsis that everybody sees, never cut off.
/// </summary>
public static class LabelText
{
    private const string Ellipsis = "…";
    private const double EllipsisWidth = 1;

    /// <summary>A text that fits, and the size of its letters.</summary>
    /// <param name="Text">The text to print.</param>
    /// <param name="Size">Height of the letters, in the unit of the room.</param>
    /// <param name="Shortened">Whether something was left out.</param>
    public readonly record struct Fitted(string Text, double Size, bool Shortened);

    /// <summary>Fits a text into a line: smaller letters first, then fewer.</summary>
    /// <param name="text">The text, in any script.</param>
    /// <param name="room">Width of the line.</param>
    /// <param name="size">Wanted height of the letters.</param>
    /// <param name="smallest">Least height of letters that can be read.</param>
    /// <param name="keepEnd">Whether the end matters as much as the start, as it does in numbers: then the middle goes.</param>
    public static Fitted Fit(string text, double room, double size, double smallest, bool keepEnd)
    {
        ArgumentNullException.ThrowIfNull(text);
        var width = Width(text);
        var fitting = width <= 0 ? size : Math.Min(size, room / width);
        if (fitting >= smallest)
        {
            return new Fitted(text, fitting, false);
        }

        return new Fitted(Shorten(text, (room / smallest) - EllipsisWidth, keepEnd), smallest, true);
    }

    /// <summary>Width in letter heights.</summary>
    public static double Width(string text) => Elements(text).Sum(ElementWidth);

    // Whole characters as a reader sees them: an accent never loses its letter, a pair never one half.
    private static string Shorten(string text, double room, bool keepEnd)
    {
        var elements = Elements(text).ToList();
        var (from, to, used) = (0, elements.Count, 0.0);
        while (from < to)
        {
            var takeEnd = keepEnd && elements.Count - to < from;
            var next = ElementWidth(elements[takeEnd ? to - 1 : from]);
            if (used + next > room)
            {
                break;
            }

            used += next;
            (from, to) = takeEnd ? (from, to - 1) : (from + 1, to);
        }

        return string.Concat(elements.Take(from)) + Ellipsis + string.Concat(keepEnd ? elements.Skip(to) : []);
    }

    private static IEnumerable<string> Elements(string text)
    {
        var elements = StringInfo.GetTextElementEnumerator(text);
        while (elements.MoveNext())
        {
            yield return elements.GetTextElement();
        }
    }

    private static double ElementWidth(string element)
    {
        var first = char.ConvertToUtf32(element, 0) is var point && element.Length > 0 ? point : 0;
        return first switch
        {
            ' ' or '.' or ',' or '\'' or '|' or 'i' or 'j' or 'l' or 'I' => 0.4,
            >= '0' and <= '9' or '-' => 0.7,
            >= 'a' and <= 'z' and not ('m' or 'w') => 0.73,
            '…' => EllipsisWidth,
            'm' or 'w' or 'M' or 'W' or '@' or '%' => 1.11,
            >= 'A' and <= 'Z' => 0.86,
            // Ideographs, syllables and pictures are as wide as they are high; joined scripts and the rest are given the same.
            _ => 1.11,
        };
    }
}
