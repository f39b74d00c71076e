namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>A test against the truth: two by two.</summary>
/// <remarks>Checked against the liver scan of Altman and Bland 1994 (BMJ 308:1552 and 309:102).</remarks>
/// <param name="TruePositive">Test yes, truth yes.</param>
/// <param name="FalsePositive">Test yes, truth no.</param>
/// <param name="FalseNegative">Test no, truth yes.</param>
/// <param name="TrueNegative">Test no, truth no.</param>
public sealed record AccuracyTable(int TruePositive, int FalsePositive, int FalseNegative, int TrueNegative)
{
    /// <summary>How many were judged.</summary>
    public int Judged => Yes + No;

    /// <summary>Of the truly positive, how many the test found.</summary>
    public Proportion Sensitivity => new(TruePositive, Yes);

    /// <summary>Of the truly negative, how many the test called so.</summary>
    public Proportion Specificity => new(TrueNegative, No);

    /// <summary>Of the test's positives, how many were right; holds only at this table's share of positives.</summary>
    public Proportion PositivePredictive => new(TruePositive, TruePositive + FalsePositive);

    /// <summary>Of the test's negatives, how many were right; holds only at this table's share of positives.</summary>
    public Proportion NegativePredictive => new(TrueNegative, TrueNegative + FalseNegative);

    /// <summary>How many the test judged right.</summary>
    public Proportion Accuracy => new(TruePositive + TrueNegative, Judged);

    /// <summary>How many the test called positive.</summary>
    public Proportion ApparentPrevalence => new(TruePositive + FalsePositive, Judged);

    /// <summary>How many truly were.</summary>
    public Proportion TruePrevalence => new(Yes, Judged);

    /// <summary>Sensitivity / (1 − specificity); null = a class is empty, or no false positive: there is no finite value.</summary>
    public Ratio? LikelihoodPositive => Of(TruePositive, FalsePositive);

    /// <summary>(1 − sensitivity) / specificity; null = a class is empty, or no true negative.</summary>
    public Ratio? LikelihoodNegative => Of(FalseNegative, TrueNegative);

    private int Yes => TruePositive + FalseNegative;

    private int No => FalsePositive + TrueNegative;

    // Interval on the logarithm (Simel, Samsa and Matchar 1991, J Clin Epidemiol 44:763).
    private Ratio? Of(int ofYes, int ofNo)
    {
        if (Yes == 0 || No == 0 || ofNo == 0)
        {
            return null;
        }

        var ratio = (double)ofYes / Yes / ((double)ofNo / No);
        if (ofYes == 0)
        {
            return new Ratio(ratio, null);
        }

        var error = Math.Sqrt((1.0 / ofYes) - (1.0 / Yes) + (1.0 / ofNo) - (1.0 / No));
        return new Ratio(ratio, new Interval(ratio * Math.Exp(-Confidence.Z * error), ratio * Math.Exp(Confidence.Z * error)));
    }
}

/// <summary>A ratio with its interval.</summary>
/// <param name="Value">0 or more.</param>
/// <param name="Limits">Absent at 0: the logarithm has no value there.</param>
public readonly record struct Ratio(double Value, Interval? Limits);
