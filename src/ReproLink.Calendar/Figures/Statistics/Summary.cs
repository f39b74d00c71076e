namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>Mean and median of counted days. Of none there is neither.</summary>
public sealed class Summary
{
    private readonly double[] _sorted;

    /// <summary>A summary of values in any order.</summary>
    public Summary(IEnumerable<double> values)
    {
        _sorted = [.. values];
        Array.Sort(_sorted);
    }

    /// <summary>How many.</summary>
    public int Count => _sorted.Length;

    /// <summary>Their sum.</summary>
    public double Sum => _sorted.Sum();

    /// <summary>Arithmetic mean; null = none.</summary>
    public double? Mean => Count == 0 ? null : Sum / Count;

    /// <summary>The middle value, the mean of the middle two of an even number; null = none.</summary>
    public double? Median => Count == 0 ? null : (_sorted[(Count - 1) / 2] + _sorted[Count / 2]) / 2;

    /// <summary>Standard deviation with n − 1; null = fewer than two.</summary>
    public double? StandardDeviation => Mean is { } mean && Count > 1
        ? Math.Sqrt(_sorted.Sum(v => (v - mean) * (v - mean)) / (Count - 1))
        : null;

    /// <summary>Interval of the mean by Student's distribution (1908, Biometrika 6:1); null = fewer than two.</summary>
    public Interval? MeanLimits()
    {
        if (Mean is not { } mean || StandardDeviation is not { } deviation)
        {
            return null;
        }

        var half = Beta.Student(Count - 1) * deviation / Math.Sqrt(Count);
        return new Interval(mean - half, mean + half);
    }
}
