namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>A count out of a number. Out of none there is no value: neither 0 nor 1.</summary>
/// <remarks>
/// Checked against the examples of Newcombe 1998, Stat Med 17:857 (one proportion) and 17:873 (difference of two).
/// </remarks>
public readonly record struct Proportion
{
    /// <summary>A proportion.</summary>
    /// <param name="count">How many, 0 to <paramref name="of"/>.</param>
    /// <param name="of">Out of how many, 0 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A count below 0 or above the number it is out of.</exception>
    public Proportion(int count, int of)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(of);
        ArgumentOutOfRangeException.ThrowIfNegative(count);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(count, of);
        (Count, Of) = (count, of);
    }

    /// <summary>The numerator.</summary>
    public int Count { get; }

    /// <summary>The denominator.</summary>
    public int Of { get; }

    /// <summary>Count / of, 0 to 1; null = out of none.</summary>
    public double? Value => Of == 0 ? null : (double)Count / Of;

    /// <summary>Score interval of Wilson (1927, J Am Stat Assoc 22:209); exactly 0 and 1 at the ends; null = out of none.</summary>
    public Interval? Wilson()
    {
        if (Of == 0)
        {
            return null;
        }

        double x = Count;
        double n = Of;
        const double z2 = Confidence.Z * Confidence.Z;
        var centre = (x + (z2 / 2)) / (n + z2);
        var half = Confidence.Z / (n + z2) * Math.Sqrt((x * (n - x) / n) + (z2 / 4));
        return new Interval(Count == 0 ? 0 : centre - half, Count == Of ? 1 : centre + half);
    }

    /// <summary>Exact interval of Clopper and Pearson (1934, Biometrika 26:404), from beta quantiles; null = out of none.</summary>
    public Interval? ClopperPearson()
    {
        if (Of == 0)
        {
            return null;
        }

        const double tail = (1 - Confidence.Level) / 2;
        return new Interval(
            Count == 0 ? 0 : Beta.Quantile(tail, Count, Of - Count + 1),
            Count == Of ? 1 : Beta.Quantile(1 - tail, Count + 1, Of - Count));
    }

    /// <summary>This less another; null = one of the two is out of none.</summary>
    public double? Minus(Proportion other) => Value - other.Value;

    /// <summary>
    /// Interval of the difference by the hybrid score method of Newcombe (1998, Stat Med 17:873, method 10, without continuity
    /// correction): from the two Wilson intervals. Null = one of the two is out of none.
    /// </summary>
    public Interval? NewcombeDifference(Proportion other)
    {
        if (Value is not { } p1 || other.Value is not { } p2 || Wilson() is not { } one || other.Wilson() is not { } two)
        {
            return null;
        }

        var difference = p1 - p2;
        return new Interval(
            difference - Hypotenuse(p1 - one.Low, two.High - p2),
            difference + Hypotenuse(one.High - p1, p2 - two.Low));
    }

    private static double Hypotenuse(double a, double b) => Math.Sqrt((a * a) + (b * b));
}
