using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Figures.Estimates;

/// <summary>
/// Carries the limits of several independent estimates through a calculation: each input goes to each of its limits alone, and
/// the deviations of the result are squared and added, those below and those above apart.
/// </summary>
/// <remarks>
/// Source: Zou and Donner 2008, Stat Med 27:1693 (recovering limits of a combination from the limits of its parts; recalled).
/// Of the difference of two proportions with Wilson limits it is Newcombe's hybrid score interval (1998, Stat Med 17:873), and
/// a test holds it to that. It supposes that the inputs were estimated independently of each other.
/// </remarks>
public static class Carrying
{
    /// <summary>The method as a sentence names it.</summary>
    public const string Method = "each input taken to its own 95 % limits alone, deviations squared and added (Zou and Donner 2008)";

    /// <summary>The results of a calculation with their limits; a result without a value is null.</summary>
    /// <param name="inputs">What goes in.</param>
    /// <param name="calculation">From the inputs' values, in their order, to the results; not a number = no value.</param>
    public static IReadOnlyList<Estimate?> Through(IReadOnlyList<Estimate> inputs, Func<double[], double[]> calculation)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        ArgumentNullException.ThrowIfNull(calculation);
        double[] values = [.. inputs.Select(i => i.Value)];
        var at = calculation(values);
        var below = new double[at.Length];
        var above = new double[at.Length];
        var limited = false;
        for (var i = 0; i < inputs.Count; i++)
        {
            if (inputs[i].Limits is not { } limits)
            {
                continue;
            }

            limited = true;
            var low = calculation(With(values, i, limits.Low));
            var high = calculation(With(values, i, limits.High));
            for (var j = 0; j < at.Length; j++)
            {
                below[j] += Square(Math.Max(0, at[j] - Math.Min(low[j], high[j])));
                above[j] += Square(Math.Max(0, Math.Max(low[j], high[j]) - at[j]));
            }
        }

        return [.. at.Select((value, j) => Result(value, limited, below[j], above[j]))];
    }

    /// <summary>One result of a calculation with its limits; null = it has no value.</summary>
    public static Estimate? One(IReadOnlyList<Estimate> inputs, Func<double[], double> calculation)
    {
        ArgumentNullException.ThrowIfNull(calculation);
        return Through(inputs, values => [calculation(values)])[0];
    }

    /// <summary>The same estimate with limits that do not leave a range.</summary>
    public static Estimate? Within(this Estimate? estimate, double least, double most) => estimate is not { Limits: { } limits }
        ? estimate
        : estimate with { Limits = new Interval(Math.Max(least, limits.Low), Math.Min(most, limits.High)) };

    // Not a number at a limit stays not a number in the sum: then that limit is not known.
    private static Estimate? Result(double value, bool limited, double below, double above) => !double.IsFinite(value)
        ? null
        : new Estimate(value, limited ? Limits(value, Math.Sqrt(below), Math.Sqrt(above)) : null, EstimateOrigin.Carried);

    private static Interval? Limits(double value, double below, double above) =>
        double.IsNaN(below) || double.IsNaN(above) ? null : new Interval(value - below, value + above);

    private static double[] With(double[] values, int index, double value)
    {
        double[] changed = [.. values];
        changed[index] = value;
        return changed;
    }

    private static double Square(double value) => value * value;
}
