namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>A two-sided interval of <see cref="Confidence"/>; both ends belong to it.</summary>
/// <param name="Low">Lower limit, in the unit of the estimate.</param>
/// <param name="High">Upper limit; never below <paramref name="Low"/>.</param>
public readonly record struct Interval(double Low, double High);

/// <summary>The confidence all intervals are given at: 95 %.</summary>
public static class Confidence
{
    /// <summary>0.95.</summary>
    public const double Level = 0.95;

    /// <summary>The 97.5 % point of the normal distribution (any table of it; 15 digits).</summary>
    public const double Z = 1.959963984540054;
}
