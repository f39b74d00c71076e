using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.WhatIf;

namespace ReproLink.Calendar.Figures.Accuracy;

/// <summary>What a test of a study's accuracy is worth in a herd.</summary>
/// <param name="Study">The study.</param>
/// <param name="Tests">What first tests said in the herd.</param>
/// <param name="ShareGiven">Whether the share pregnant was given, not counted.</param>
/// <param name="InHerd">Predictive values; null = no first test in the period, and no share was given.</param>
/// <param name="WrongOpenHere">Of the herd's own answers <c>open</c>, how many are expected to be wrong; null = there is no value.</param>
/// <param name="SecondSampleDays">Days by which a second sample puts off the next service, mean of the weekdays; null = the programme dates none.</param>
public sealed record TestReport(
    PublishedAccuracy Study, FirstTests Tests, bool ShareGiven, TestInHerd? InHerd, Estimate? WrongOpenHere, double? SecondSampleDays)
{
    /// <summary>What it supposes.</summary>
    public static readonly IReadOnlyList<string> Assumptions =
    [
        "The herd's test errs as the study's did. Studies differ in animals, day, reference and in what they did with inconclusive results: they are not pooled.",
        "The share pregnant is that of first tests after a service that said pregnant or open, the study's own errors taken out (Rogan and Gladen 1978). Inconclusive answers are counted apart.",
        "Every animal called open is treated, and prostaglandin ends the pregnancy of one that is pregnant (14 of 14 animals in two studies: Giordano et al. 2012, Lobago et al. 2006).",
        "A second sample errs independently of the first: an animal whose protein is low may read low twice, and then nothing is gained. The truth lies between the two numbers shown.",
        $"Limits: {Carrying.Method}; the inputs were estimated independently.",
    ];

    /// <summary>Makes the report.</summary>
    /// <param name="study">A study that can be reckoned with.</param>
    /// <param name="tests">The herd's first tests.</param>
    /// <param name="share">A true share pregnant in place of the herd's; null = the herd's.</param>
    /// <param name="course">The course of the herd's programme; null = it has none.</param>
    /// <exception cref="ArgumentException">The study cannot be reckoned with.</exception>
    public static TestReport Of(PublishedAccuracy study, FirstTests tests, double? share, ProgrammeCourse? course)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(tests);
        var rates = study.Rates ?? throw new ArgumentException(study.NotUsable, nameof(study));
        var herd = share is { } given ? TestInHerd.AtTrue(rates, Estimate.Given(given))
            : Estimate.Of(tests.CalledPregnant, EstimateOrigin.Herd) is { } called ? TestInHerd.AtCalled(rates, called)
            : null;
        return new TestReport(study, tests, share is not null, herd, Here(tests, herd), course?.ByWeekday.Average(c => c.OpenAfterSecond - c.Open));
    }

    private static Estimate? Here(FirstTests tests, TestInHerd? herd) => tests.Open > 0 && herd?.WrongOfOpen is { } wrong
        ? Carrying.One([wrong], v => tests.Open * v[0] / 1000)
        : null;
}
