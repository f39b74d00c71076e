using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Accuracy;

/// <summary>What a test's answers are worth in this herd, and the published accuracies.</summary>
public sealed record TestAccuracyAnswer
{
    /// <summary>The herd's name.</summary>
    /// <example>North Ridge</example>
    public required string Herd { get; init; }

    /// <summary>The day it is made on.</summary>
    public required LocalDate AsOf { get; init; }

    /// <summary>First day of the services whose first tests are counted.</summary>
    public required LocalDate From { get; init; }

    /// <summary>Last day of those services.</summary>
    public required LocalDate To { get; init; }

    /// <summary>What first tests after a service said in the herd.</summary>
    public required FirstTestsAnswer FirstTests { get; init; }

    /// <summary>The study reckoned with.</summary>
    /// <example>mayo-2016-plasma</example>
    public required string Study { get; init; }

    /// <summary>Its answers in this herd; absent = no first test in the period and no share was given.</summary>
    public TestInHerdAnswer? InHerd { get; init; }

    /// <summary>Why there is no value.</summary>
    public string? NoValue { get; init; }

    /// <summary>What it supposes.</summary>
    public required IReadOnlyList<string> Assumptions { get; init; }

    /// <summary>The published accuracies, with the herd's predictive values where they can be reckoned with.</summary>
    public required IReadOnlyList<StudyAnswer> Studies { get; init; }

    /// <summary>What everybody must know who handles prostaglandin or needles.</summary>
    public required IReadOnlyList<string> Cautions { get; init; }
}

/// <summary>What first tests after a service said.</summary>
public sealed record FirstTestsAnswer
{
    /// <summary>Pregnant.</summary>
    /// <example>161</example>
    public required int Pregnant { get; init; }

    /// <summary>Open.</summary>
    /// <example>184</example>
    public required int Open { get; init; }

    /// <summary>Inconclusive.</summary>
    /// <example>12</example>
    public required int Recheck { get; init; }

    /// <summary>Called pregnant, of those that said pregnant or open.</summary>
    public required EstimateContract CalledPregnant { get; init; }

    /// <summary>Inconclusive, of all.</summary>
    public required EstimateContract Inconclusive { get; init; }
}

/// <summary>A test in the herd; counts are of 1,000 first tests that said pregnant or open.</summary>
public sealed record TestInHerdAnswer
{
    /// <summary>Share pregnant among the tested, the test's errors taken out.</summary>
    public required EstimateContract SharePregnant { get; init; }

    /// <summary>True: the share called pregnant is one such a test cannot give; the true share was set to none or all.</summary>
    public bool? OutOfRange { get; init; }

    /// <summary>Of answers pregnant, the share that is right.</summary>
    public required EstimateContract PositivePredictive { get; init; }

    /// <summary>Of answers open, the share that is right.</summary>
    public required EstimateContract NegativePredictive { get; init; }

    /// <summary>Pregnant animals called open: pregnancies lost if treated.</summary>
    public required EstimateContract WrongOpenOf1000 { get; init; }

    /// <summary>Wrong ones of 1,000 answers open.</summary>
    public required EstimateContract WrongOf1000Open { get; init; }

    /// <summary>Open animals called pregnant: they wait unserved until confirmed.</summary>
    public required EstimateContract WrongPregnantOf1000 { get; init; }

    /// <summary>Of the herd's own answers open in the period, how many are expected to be wrong.</summary>
    public required EstimateContract WrongOpenHere { get; init; }

    /// <summary>What they cost at your price of a lost pregnancy, for 1,000 tests; absent = no price.</summary>
    public EstimateContract? CostOf1000 { get; init; }

    /// <summary>Whether a second sample before treatment pays; absent = there is no value.</summary>
    public SecondSampleAnswer? SecondSample { get; init; }
}

/// <summary>A second sample of every animal called open; counts are of 1,000 first tests.</summary>
public sealed record SecondSampleAnswer
{
    /// <summary>Wrongly treated on one sample.</summary>
    public required EstimateContract WrongOpenWithOne { get; init; }

    /// <summary>Wrongly treated on two, if their errors are independent.</summary>
    public required EstimateContract WrongOpenIfIndependent { get; init; }

    /// <summary>Wrongly treated on two, if the second repeats every error of the first.</summary>
    public required EstimateContract WrongOpenIfRepeated { get; init; }

    /// <summary>Second tubes.</summary>
    public required EstimateContract Tubes { get; init; }

    /// <summary>Truly open animals that wait for the second answer.</summary>
    public required EstimateContract OpenWaiting { get; init; }

    /// <summary>Truly open animals the second sample wrongly calls pregnant.</summary>
    public required EstimateContract OpenHeldBack { get; init; }

    /// <summary>Days by which the next service comes later, mean of the weekdays; absent = the programme dates none.</summary>
    /// <example>9.0</example>
    public double? DaysLater { get; init; }

    /// <summary>Tubes for one pregnancy kept, if errors are independent.</summary>
    public required EstimateContract TubesForOne { get; init; }

    /// <summary>From what price of a lost pregnancy it pays, at your prices of a test and a day open, if errors are independent; absent = a price is missing.</summary>
    /// <example>412.5</example>
    public double? PaysFrom { get; init; }

    /// <summary>Whether it pays at your prices, if errors are independent; if they repeat it never does. Absent = a price is missing.</summary>
    /// <example>true</example>
    public bool? Pays { get; init; }
}

/// <summary>The accuracy of a test as one study found it.</summary>
public sealed record StudyAnswer
{
    /// <summary>Its id.</summary>
    /// <example>karen-2015-pag-elisa</example>
    public required string Id { get; init; }

    /// <summary>Authors, year, journal.</summary>
    /// <example>Karen et al. 2015, Anim Reprod Sci 159:31-37</example>
    public required string Study { get; init; }

    /// <summary>Digital object identifier; absent = none known.</summary>
    /// <example>10.3168/jds.2016-11224</example>
    public string? Doi { get; init; }

    /// <summary>What is measured and how.</summary>
    /// <example>pregnancy-associated glycoproteins, ELISA</example>
    public required string Test { get; init; }

    /// <summary>Blood, milk, or an examination for comparison.</summary>
    /// <example>blood</example>
    [Words("blood", "milk", "ultrasound")]
    public required string Method { get; init; }

    /// <summary>What was tested; absent = not said.</summary>
    /// <example>plasma</example>
    public string? Specimen { get; init; }

    /// <summary>Days after service, as printed.</summary>
    /// <example>28</example>
    public required string Days { get; init; }

    /// <summary>Animals; absent = not said.</summary>
    /// <example>100</example>
    public int? Animals { get; init; }

    /// <summary>Sensitivity; from counts where they are known, else as printed.</summary>
    public required EstimateContract Sensitivity { get; init; }

    /// <summary>Specificity.</summary>
    public required EstimateContract Specificity { get; init; }

    /// <summary>Share of inconclusive results as printed; absent = not printed.</summary>
    /// <example>0.085</example>
    public double? Inconclusive { get; init; }

    /// <summary>How the counts are known.</summary>
    /// <example>only-table</example>
    [Words("published", "only-table", "one-of-several", "assumed", "none")]
    public required string Counts { get; init; }

    /// <summary>What it was compared with; absent = not read.</summary>
    public string? Reference { get; init; }

    /// <summary>Whether the figures were read in the source or recalled.</summary>
    /// <example>seen</example>
    [Words("seen", "memory")]
    public required string Evidence { get; init; }

    /// <summary>Whether the printed rates agree among themselves.</summary>
    /// <example>agrees</example>
    [Words("agrees", "does-not-agree", "not-checked")]
    public required string Check { get; init; }

    /// <summary>What a reader must know.</summary>
    public required string Note { get; init; }

    /// <summary>Why it cannot be reckoned with; absent = it can.</summary>
    public string? NotUsable { get; init; }

    /// <summary>Of answers pregnant in this herd, the share that would be right; absent = no value.</summary>
    public EstimateContract? PositivePredictiveHere { get; init; }

    /// <summary>Of answers open in this herd, the share that would be right; absent = no value.</summary>
    public EstimateContract? NegativePredictiveHere { get; init; }
}
