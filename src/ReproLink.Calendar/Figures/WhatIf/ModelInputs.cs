using ReproLink.Calendar.Figures.Estimates;

namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>
/// The numbers of one reckoning. <c>Inputs</c> and <see cref="From"/> keep one order, so that limits can be carried through.
/// </summary>
internal sealed record ModelInputs
{
    public required double First { get; init; }

    public required double PregnantFirst { get; init; }

    public required double PregnantLater { get; init; }

    public required double Returns { get; init; }

    public required int ReturnDays { get; init; }

    public required double Loss { get; init; }

    public required double Ends { get; init; }

    public required double Sensitivity { get; init; }

    public required double Specificity { get; init; }

    public required double Inconclusive { get; init; }

    public required bool SecondSample { get; init; }

    public required ProgrammeCourse Course { get; init; }

    public static Estimate[] Of(WhatIfProgramme p) =>
    [
        p.Rates.FirstServiceDays, p.Rates.PregnantFirst, p.Rates.PregnantLater, p.Rates.Returns, p.Rates.Loss, p.Rates.Ends,
        p.Test.Sensitivity, p.Test.Specificity, p.Test.Inconclusive,
    ];

    /// <summary>How many numbers one programme takes.</summary>
    public const int Count = 9;

    /// <summary>The inputs of a programme, its rates moved from the day they speak of to its own test day.</summary>
    /// <param name="p">The programme.</param>
    /// <param name="v">The values of <see cref="Of"/>, or values at their limits.</param>
    /// <param name="spokenOf">Test and confirmation day the rates speak of.</param>
    public static ModelInputs From(WhatIfProgramme p, ReadOnlySpan<double> v, (double Test, double Confirmation) spokenOf)
    {
        var (test, confirmation) = (p.Course.MeanTestDay, p.Course.MeanConfirmationDay);
        // Losses run evenly over the days between test and confirmation. A later test no longer sees those before it: fewer
        // animals are found pregnant, and fewer of them lose it afterwards, and both speak of the same pregnancies.
        var perDay = Math.Pow(1 - v[4], 1 / Math.Max(1, spokenOf.Confirmation - spokenOf.Test));
        var seen = Math.Pow(perDay, test - spokenOf.Test);
        return new ModelInputs
        {
            First = v[0],
            PregnantFirst = Math.Min(1, v[1] * seen),
            PregnantLater = Math.Min(1, v[2] * seen),
            Returns = v[3],
            ReturnDays = (int)Math.Round(p.Rates.ReturnDays.Value),
            Loss = 1 - Math.Pow(perDay, confirmation - test),
            Ends = v[5],
            Sensitivity = v[6],
            Specificity = v[7],
            Inconclusive = v[8],
            SecondSample = p.Test.SecondSample,
            Course = p.Course,
        };
    }
}
