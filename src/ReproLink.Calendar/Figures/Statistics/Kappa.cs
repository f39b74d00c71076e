namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>Agreement of two methods beyond chance, from a two-by-two table.</summary>
/// <remarks>
/// Cohen 1960; standard error and interval by the large-sample formula of Fleiss, Cohen and Everitt 1969, not the one under
/// kappa = 0. Kappa falls where one class is rare, however well the methods agree: agreement and <see cref="Adjusted"/> stand beside it.
/// </remarks>
/// <param name="BothPositive">Both say yes.</param>
/// <param name="FirstOnly">The first says yes, the second no.</param>
/// <param name="SecondOnly">The second says yes, the first no.</param>
/// <param name="BothNegative">Both say no.</param>
public sealed record Kappa(int BothPositive, int FirstOnly, int SecondOnly, int BothNegative)
{
    /// <summary>How many were judged by both.</summary>
    public int Judged => BothPositive + FirstOnly + SecondOnly + BothNegative;

    /// <summary>Observed agreement.</summary>
    public Proportion Agreement => new(BothPositive + BothNegative, Judged);

    /// <summary>Agreement expected by chance; null = none was judged.</summary>
    public double? ByChance => Judged == 0 ? null : (Share(First) * Share(Second)) + ((1 - Share(First)) * (1 - Share(Second)));

    /// <summary>Kappa, −1 to 1; null = none judged, or all of one class by both: then chance alone agrees and there is no value.</summary>
    public double? Value => ByChance is { } chance && chance < 1 ? (Agreement.Value - chance) / (1 - chance) : null;

    /// <summary>Prevalence-adjusted, bias-adjusted kappa (Byrt et al. 1993): 2 × agreement − 1; null = none was judged.</summary>
    public double? Adjusted => (2 * Agreement.Value) - 1;

    /// <summary>Large-sample standard error; null = no kappa.</summary>
    public double? StandardError
    {
        get
        {
            if (Value is not { } kappa || ByChance is not { } chance)
            {
                return null;
            }

            var (p, q, rest) = (Share(First), Share(Second), 1 - kappa);
            var agreed = (Share(BothPositive) * Square(1 - ((p + q) * rest))) + (Share(BothNegative) * Square(1 - ((2 - p - q) * rest)));
            var apart = rest * rest * ((Share(FirstOnly) * Square(q + 1 - p)) + (Share(SecondOnly) * Square(1 - q + p)));
            var variance = (agreed + apart - Square(kappa - (chance * rest))) / (Square(1 - chance) * Judged);
            return Math.Sqrt(Math.Max(variance, 0));
        }
    }

    /// <summary>Interval, not beyond −1 and 1; null = no kappa.</summary>
    public Interval? Limits => Value is { } kappa && StandardError is { } error
        ? new Interval(Math.Max(kappa - (Confidence.Z * error), -1), Math.Min(kappa + (Confidence.Z * error), 1))
        : null;

    private int First => BothPositive + FirstOnly;

    private int Second => BothPositive + SecondOnly;

    private double Share(int count) => (double)count / Judged;

    private static double Square(double x) => x * x;
}
