namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>The beta distribution: its distribution function and quantiles, and Student's quantile from them.</summary>
internal static class Beta
{
    private const int MostTerms = 10_000;
    private const double Tiny = 1e-300;

    /// <summary>Probability that a beta variable with those parameters is at most <paramref name="x"/>, 0 to 1.</summary>
    public static double Below(double x, double a, double b)
    {
        if (x <= 0 || x >= 1)
        {
            return x <= 0 ? 0 : 1;
        }

        var front = Math.Exp(Gamma.Ln(a + b) - Gamma.Ln(a) - Gamma.Ln(b) + (a * Math.Log(x)) + (b * Math.Log(1 - x)));
        // The fraction converges fast on the near side of the mean; the other side is its complement.
        return x < (a + 1) / (a + b + 2) ? front * Fraction(x, a, b) / a : 1 - (front * Fraction(1 - x, b, a) / b);
    }

    /// <summary>The value below which a beta variable lies with a probability; found by halving, to the last digit.</summary>
    public static double Quantile(double probability, double a, double b)
    {
        var (low, high) = (0.0, 1.0);
        while (true)
        {
            var middle = low + ((high - low) / 2);
            if (middle <= low || middle >= high)
            {
                return middle;
            }

            if (Below(middle, a, b) < probability)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }
    }

    /// <summary>The two-sided point of Student's distribution at <see cref="Confidence.Level"/>.</summary>
    /// <param name="degrees">Degrees of freedom, 1 or more.</param>
    public static double Student(int degrees)
    {
        var x = Quantile(1 - Confidence.Level, degrees / 2.0, 0.5);
        return Math.Sqrt(degrees * (1 - x) / x);
    }

    // Continued fraction of the incomplete beta function (Abramowitz and Stegun 26.5.8), by the method of Lentz.
    private static double Fraction(double x, double a, double b)
    {
        var c = 1.0;
        var d = 1 / NotZero(1 - ((a + b) * x / (a + 1)));
        var h = d;
        for (var m = 1; m < MostTerms; m++)
        {
            var even = m * (b - m) * x / ((a + (2 * m) - 1) * (a + (2 * m)));
            d = 1 / NotZero(1 + (even * d));
            c = NotZero(1 + (even / c));
            h *= d * c;
            var odd = -(a + m) * (a + b + m) * x / ((a + (2 * m)) * (a + (2 * m) + 1));
            d = 1 / NotZero(1 + (odd * d));
            c = NotZero(1 + (odd / c));
            var change = d * c;
            h *= change;
            if (Math.Abs(change - 1) < 1e-16)
            {
                break;
            }
        }

        return h;
    }

    private static double NotZero(double value) => Math.Abs(value) < Tiny ? Tiny : value;
}
