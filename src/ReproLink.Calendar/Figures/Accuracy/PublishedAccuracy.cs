using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.Statistics;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Figures.Accuracy;

/// <summary>How the counts behind published rates are known.</summary>
public enum CountsKnown
{
    /// <summary>Not known: the rates have no interval of ours.</summary>
    None = 1,

    /// <summary>Printed.</summary>
    Published = 2,

    /// <summary>Exactly one table of whole animals gives the printed rates.</summary>
    OnlyTable = 3,

    /// <summary>Several tables do; one is used.</summary>
    OneOfSeveral = 4,

    /// <summary>A table follows from an assumption, which the note says.</summary>
    Assumed = 5,
}

/// <summary>Whether the printed rates agree among themselves.</summary>
public enum RatesCheck
{
    /// <summary>A table of whole animals gives all of them.</summary>
    Agrees = 1,

    /// <summary>None does.</summary>
    DoesNotAgree = 2,

    /// <summary>There is nothing to check them by.</summary>
    NotChecked = 3,
}

/// <summary>The accuracy of a pregnancy test as one study found it. Rates are shares from 0 to 1, with the digits printed.</summary>
/// <param name="Id">Our id, e.g. <c>mayo-2016-plasma</c>.</param>
/// <param name="Study">Authors, year, journal.</param>
/// <param name="Test">What is measured and how: the analyte, never a product.</param>
/// <param name="Method">Blood, milk, or an examination for comparison.</param>
/// <param name="Days">Days after service, as printed.</param>
/// <param name="Counts">How the counts are known.</param>
/// <param name="Evidence">Whether the figures were read in the source.</param>
/// <param name="Check">Whether they agree among themselves.</param>
/// <param name="Note">What a reader must know.</param>
public sealed record PublishedAccuracy(
    string Id, string Study, string Test, TestMethod Method, string Days, CountsKnown Counts, Evidence Evidence, RatesCheck Check, string Note)
{
    /// <summary>Digital object identifier; absent = none known.</summary>
    public string? Doi { get; init; }

    /// <summary>What was tested: <c>plasma</c>, <c>serum</c>, <c>whole-blood</c>; absent = not said.</summary>
    public string? Specimen { get; init; }

    /// <summary>Animals; absent = not said.</summary>
    public int? Animals { get; init; }

    /// <summary>The table; absent = no counts are known.</summary>
    public AccuracyTable? Table { get; init; }

    /// <summary>Sensitivity as printed.</summary>
    public decimal? Sensitivity { get; init; }

    /// <summary>Specificity as printed.</summary>
    public decimal? Specificity { get; init; }

    /// <summary>Positive predictive value as printed: holds at that study's share of pregnant animals only.</summary>
    public decimal? PositivePredictive { get; init; }

    /// <summary>Negative predictive value as printed.</summary>
    public decimal? NegativePredictive { get; init; }

    /// <summary>Share judged right, as printed.</summary>
    public decimal? Accuracy { get; init; }

    /// <summary>Limits of the sensitivity as printed; absent = none printed.</summary>
    public Interval? SensitivityLimits { get; init; }

    /// <summary>Limits of the specificity as printed.</summary>
    public Interval? SpecificityLimits { get; init; }

    /// <summary>Share of inconclusive results, as printed; absent = not printed.</summary>
    public decimal? Inconclusive { get; init; }

    /// <summary>Share of animals pregnant in that study.</summary>
    public decimal? SharePregnant { get; init; }

    /// <summary>What it was compared with; absent = not read.</summary>
    public string? Reference { get; init; }

    /// <summary>Why it cannot be reckoned with; absent = it can.</summary>
    public string? NotUsable => Evidence == Evidence.Memory ? "recalled, not read in its source"
        : Check == RatesCheck.DoesNotAgree ? "its printed rates do not agree among themselves"
        : Rates is null ? "sensitivity or specificity was not published"
        : Days == "25" ? "before day 28 after service, the first day on which a test counts here (T1)"
        : null;

    /// <summary>
    /// Sensitivity and specificity to reckon with: from the counts with Wilson limits; without counts as printed, with the printed
    /// limits or none. Absent = one of the two is not known.
    /// </summary>
    public TestRates? Rates =>
        (Of(Table?.Sensitivity, Sensitivity, SensitivityLimits), Of(Table?.Specificity, Specificity, SpecificityLimits)) is ({ } sensitivity, { } specificity)
            ? new TestRates(sensitivity, specificity)
            : null;

    private static Estimate? Of(Proportion? counted, decimal? printed, Interval? limits)
    {
        if (counted is { } count)
        {
            return Estimate.Of(count, EstimateOrigin.Published);
        }

        return printed is { } rate ? new Estimate((double)rate, limits, EstimateOrigin.Published) : null;
    }
}

/// <summary>What a test gets right.</summary>
/// <param name="Sensitivity">Of the pregnant, the share it calls pregnant.</param>
/// <param name="Specificity">Of the open, the share it calls open.</param>
public sealed record TestRates(Estimate Sensitivity, Estimate Specificity);
