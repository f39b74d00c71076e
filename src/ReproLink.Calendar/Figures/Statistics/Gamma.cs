namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>Logarithm of the gamma function, and its incomplete form as the upper tail of chi-square.</summary>
internal static class Gamma
{
    private const int MostTerms = 10_000;
    private const double Tiny = 1e-300;

    // Approximation of Lanczos (1964) with the nine coefficients of Godfrey for g = 7; error below 1e-14.
    private static readonly double[] Lanczos =
    [
        0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
        12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
    ];

    /// <summary>ln Γ(x), x above 0.</summary>
    public static double Ln(double x)
    {
        var shifted = x - 1;
        var sum = Lanczos[0];
        for (var i = 1; i < Lanczos.Length; i++)
        {
            sum += Lanczos[i] / (shifted + i);
        }

        var t = shifted + Lanczos.Length - 1.5;
        return (0.5 * Math.Log(2 * Math.PI)) + ((shifted + 0.5) * Math.Log(t)) - t + Math.Log(sum);
    }

    /// <summary>Probability that chi-square with that many degrees of freedom exceeds a value of 0 or more.</summary>
    public static double ChiSquareAbove(double value, int degrees)
    {
        var (a, x) = (degrees / 2.0, value / 2);
        return x <= 0 ? 1 : x < a + 1 ? 1 - LowerBySeries(a, x) : UpperByFraction(a, x);
    }

    // Series of the lower incomplete gamma function (Abramowitz and Stegun 6.5.29).
    private static double LowerBySeries(double a, double x)
    {
        var term = 1 / a;
        var sum = term;
        for (var n = 1; n < MostTerms && Math.Abs(term) > Math.Abs(sum) * 1e-17; n++)
        {
            term *= x / (a + n);
            sum += term;
        }

        return sum * Math.Exp((a * Math.Log(x)) - x - Ln(a));
    }

    // Continued fraction of the upper one (Abramowitz and Stegun 6.5.31), evaluated by the method of Lentz.
    private static double UpperByFraction(double a, double x)
    {
        var b = x + 1 - a;
        var c = 1 / Tiny;
        var d = 1 / b;
        var h = d;
        for (var i = 1; i < MostTerms; i++)
        {
            var an = -i * (i - a);
            b += 2;
            d = NotZero((an * d) + b);
            c = NotZero(b + (an / c));
            d = 1 / d;
            var change = d * c;
            h *= change;
            if (Math.Abs(change - 1) < 1e-16)
            {
                break;
            }
        }

        return h * Math.Exp((a * Math.Log(x)) - x - Ln(a));
    }

    private static double NotZero(double value) => Math.Abs(value) < Tiny ? Tiny : value;
}
