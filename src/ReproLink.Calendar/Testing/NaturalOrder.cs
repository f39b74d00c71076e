namespace ReproLink.Calendar.Testing;

/// <summary>The order in which people read pens and animals: runs of digits by their number, 4 before 10.</summary>
public sealed class NaturalOrder : IComparer<string?>
{
    /// <summary>The one instance.</summary>
    public static readonly NaturalOrder Instance = new();

    private NaturalOrder()
    {
    }

    /// <inheritdoc/>
    public int Compare(string? x, string? y)
    {
        // No name at all comes last: an animal without a pen is looked for after the others.
        if (x is null || y is null)
        {
            return (x is null).CompareTo(y is null);
        }

        var (i, j) = (0, 0);
        while (i < x.Length && j < y.Length)
        {
            var order = char.IsAsciiDigit(x[i]) && char.IsAsciiDigit(y[j])
                ? CompareNumbers(x, y, ref i, ref j)
                : char.ToUpperInvariant(x[i++]).CompareTo(char.ToUpperInvariant(y[j++]));
            if (order != 0)
            {
                return order;
            }
        }

        var rest = (x.Length - i).CompareTo(y.Length - j);
        return rest != 0 ? rest : string.CompareOrdinal(x, y);
    }

    private static int CompareNumbers(string x, string y, ref int i, ref int j)
    {
        var a = Number(x, ref i);
        var b = Number(y, ref j);
        return a.Length != b.Length ? a.Length.CompareTo(b.Length) : a.CompareTo(b, StringComparison.Ordinal);
    }

    private static ReadOnlySpan<char> Number(string text, ref int at)
    {
        var start = at;
        while (at < text.Length && char.IsAsciiDigit(text[at]))
        {
            at++;
        }

        var digits = text.AsSpan(start, at - start).TrimStart('0');
        return digits;
    }
}
