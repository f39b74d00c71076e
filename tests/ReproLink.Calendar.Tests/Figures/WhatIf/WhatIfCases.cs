using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.WhatIf;

namespace ReproLink.Calendar.Tests.Figures.WhatIf;

/// <summary>Programmes of the tests, without limits unless a test gives some.</summary>
internal static class WhatIfCases
{
    /// <summary>A blood test on day 28 with the result next day, a week to the next service, confirmation on day 60: own invention.</summary>
    public static WhatIfProgramme BloodTestDay28 { get; } = new("A", Course(28, 1, 7, 60), Rates(0.08), Test(0.98, 0.95));

    /// <summary>The same with a perfect test and no loss.</summary>
    public static WhatIfProgramme Perfect { get; } = BloodTestDay28 with { Name = "A0", Rates = Rates(0), Test = Test(1, 1) };

    public static ProgrammeCourse Course(int test, int result, int next, int confirmation) =>
        ProgrammeCourse.Given(new ServiceCourse(test, test + result + next, test + result + next + 7, confirmation, confirmation + next));

    public static HerdRates Rates(double loss) => new()
    {
        FirstServiceDays = Estimate.Given(70),
        PregnantFirst = Estimate.Given(0.42),
        PregnantLater = Estimate.Given(0.36),
        Returns = Estimate.Given(0.5),
        Loss = Estimate.Given(loss),
    };

    public static ProgrammeTest Test(double sensitivity, double specificity, double inconclusive = 0) => new()
    {
        Sensitivity = Estimate.Given(sensitivity),
        Specificity = Estimate.Given(specificity),
        Inconclusive = Estimate.Given(inconclusive),
    };

    public static WhatIfFigures Figures(this WhatIfProgramme programme, Prices? prices = null) => WhatIfComparison.Of([programme], prices).Results[0].Figures;
}
