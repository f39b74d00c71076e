using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Figures.Accuracy;

/// <summary>What first tests after a service said in a herd and period. Tests of known pregnancies and second samples are not among them.</summary>
/// <param name="Pregnant">First tests that said pregnant.</param>
/// <param name="Open">First tests that said open.</param>
/// <param name="Recheck">First tests that were inconclusive.</param>
public sealed record FirstTests(int Pregnant, int Open, int Recheck)
{
    /// <summary>Called pregnant, of those that said pregnant or open.</summary>
    public Proportion CalledPregnant => new(Pregnant, Pregnant + Open);

    /// <summary>Inconclusive, of all.</summary>
    public Proportion Inconclusive => new(Recheck, Pregnant + Open + Recheck);
}

/// <summary>
/// A test of a published accuracy in a herd: what its answers are worth there. Predictive values hold at one share of pregnant
/// animals only, so they are reckoned at the herd's own.
/// </summary>
/// <remarks>
/// Bayes' rule; the true share behind the share called pregnant by Rogan and Gladen (1978, Am J Epidemiol 107:71; recalled):
/// (called + specificity − 1) / (sensitivity + specificity − 1). Limits by <see cref="Carrying"/>.
/// </remarks>
public sealed record TestInHerd
{
    private const double Thousand = 1000;

    private TestInHerd()
    {
    }

    /// <summary>The test's rates.</summary>
    public required TestRates Rates { get; init; }

    /// <summary>Share pregnant among the tested, the test's own errors taken out; null = the test tells nothing apart.</summary>
    public Estimate? SharePregnant { get; private init; }

    /// <summary>Whether the share called pregnant is one such a test cannot give: the true share was set to 0 or 1.</summary>
    public bool OutOfRange { get; private init; }

    /// <summary>Of answers <c>pregnant</c>, the share that is right; null = there are none.</summary>
    public Estimate? PositivePredictive { get; private init; }

    /// <summary>Of answers <c>open</c>, the share that is right; null = there are none.</summary>
    public Estimate? NegativePredictive { get; private init; }

    /// <summary>Wrong <c>open</c> of 1,000 tests that said pregnant or open: pregnant animals that would be treated as open.</summary>
    public Estimate? WrongOpen { get; private init; }

    /// <summary>Wrong <c>open</c> of 1,000 answers <c>open</c>.</summary>
    public Estimate? WrongOfOpen { get; private init; }

    /// <summary>Wrong <c>pregnant</c> of 1,000 tests: open animals that wait unserved until they are confirmed.</summary>
    public Estimate? WrongPregnant { get; private init; }

    /// <summary>Answers <c>open</c> of 1,000 tests.</summary>
    public Estimate? CalledOpen { get; private init; }

    /// <summary>Whether a second sample before treatment pays; null = there is no value.</summary>
    public SecondSample? Second { get; private init; }

    /// <summary>A test where a share of the tests calls pregnant.</summary>
    /// <param name="rates">The test.</param>
    /// <param name="called">Share called pregnant of those that said pregnant or open.</param>
    public static TestInHerd AtCalled(TestRates rates, Estimate called)
    {
        ArgumentNullException.ThrowIfNull(rates);
        ArgumentNullException.ThrowIfNull(called);
        var raw = True(called.Value, rates.Sensitivity.Value, rates.Specificity.Value);
        return At(rates, called, True, outOfRange: raw is < 0 or > 1);
    }

    /// <summary>A test where a true share of the tested is pregnant.</summary>
    public static TestInHerd AtTrue(TestRates rates, Estimate pregnant)
    {
        ArgumentNullException.ThrowIfNull(rates);
        ArgumentNullException.ThrowIfNull(pregnant);
        return At(rates, pregnant, static (share, _, _) => share, outOfRange: false);
    }

    private static TestInHerd At(TestRates rates, Estimate share, Func<double, double, double, double> toTrue, bool outOfRange)
    {
        var carried = Carrying.Through([share, rates.Sensitivity, rates.Specificity], v =>
        {
            var (se, sp) = (v[1], v[2]);
            var p = Math.Clamp(toTrue(v[0], se, sp), 0, 1);
            var (right, wrongPregnant) = (se * p, (1 - sp) * (1 - p));
            var (rightOpen, wrongOpen) = (sp * (1 - p), (1 - se) * p);
            return
            [
                p, right / (right + wrongPregnant), rightOpen / (rightOpen + wrongOpen), Thousand * wrongOpen,
                Thousand * wrongOpen / (rightOpen + wrongOpen), Thousand * wrongPregnant, Thousand * (rightOpen + wrongOpen),
                .. SecondSample.Results(p, se, sp),
            ];
        });
        return new TestInHerd
        {
            Rates = rates,
            OutOfRange = outOfRange,
            SharePregnant = carried[0].Within(0, 1),
            PositivePredictive = carried[1].Within(0, 1),
            NegativePredictive = carried[2].Within(0, 1),
            WrongOpen = carried[3].Within(0, Thousand),
            WrongOfOpen = carried[4].Within(0, Thousand),
            WrongPregnant = carried[5].Within(0, Thousand),
            CalledOpen = carried[6].Within(0, Thousand),
            Second = SecondSample.Of([.. carried.Skip(7)], carried[3], carried[6]),
        };
    }

    // Not a number where the test tells nothing apart.
    private static double True(double called, double sensitivity, double specificity) =>
        sensitivity + specificity <= 1 ? double.NaN : (called + specificity - 1) / (sensitivity + specificity - 1);
}
