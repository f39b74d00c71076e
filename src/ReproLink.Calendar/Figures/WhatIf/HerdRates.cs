using ReproLink.Calendar.Figures.Estimates;

namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>The rates a what-if reckons with: the herd's own, or given. Shares from 0 to 1, days in whole or broken numbers.</summary>
public sealed record HerdRates
{
    /// <summary>Days from calving to first service, mean.</summary>
    public required Estimate FirstServiceDays { get; init; }

    /// <summary>Share of first services pregnant at the test day, above 0.</summary>
    public required Estimate PregnantFirst { get; init; }

    /// <summary>Share of later services pregnant at the test day, above 0.</summary>
    public required Estimate PregnantLater { get; init; }

    /// <summary>Share of failed services after which she is seen in oestrus and served again before the test.</summary>
    public required Estimate Returns { get; init; }

    /// <summary>Days from service to that next service. Default 21, one cycle.</summary>
    public Estimate ReturnDays { get; init; } = Estimate.Given(21);

    /// <summary>Share of pregnancies found at the test day that are lost by the confirmation, below 1.</summary>
    public required Estimate Loss { get; init; }

    /// <summary>
    /// Chance that prostaglandin ends a pregnancy. Default 1: it did in all 14 animals of two studies (Giordano et al. 2012, J Dairy
    /// Sci 95:683, 10 of 10; Lobago et al. 2006, Acta Vet Scand 48:23, 4 of 4).
    /// </summary>
    public Estimate Ends { get; init; } = Estimate.Given(1);

    /// <summary>Day after service the rates speak of; absent = the first programme's test day.</summary>
    public double? TestDay { get; init; }

    /// <summary>Day of confirmation they speak of; absent = the first programme's.</summary>
    public double? ConfirmationDay { get; init; }
}

/// <summary>The test of a programme: its rates, the share of inconclusive results, and whether a second sample decides.</summary>
public sealed record ProgrammeTest
{
    /// <summary>Of the pregnant, the share called pregnant.</summary>
    public required Estimate Sensitivity { get; init; }

    /// <summary>Of the open, the share called open.</summary>
    public required Estimate Specificity { get; init; }

    /// <summary>Share of tests that are inconclusive, below 1: sampled again once.</summary>
    public Estimate Inconclusive { get; init; } = Estimate.Given(0);

    /// <summary>Whether an animal called open is treated only when a second sample says so too.</summary>
    public bool SecondSample { get; init; }

    /// <summary>The study the rates come from; absent = given.</summary>
    public string? Study { get; init; }
}

/// <summary>One programme of a what-if.</summary>
/// <param name="Name">What the asker calls it.</param>
/// <param name="Course">Its course.</param>
/// <param name="Rates">The rates it is reckoned with.</param>
/// <param name="Test">Its test.</param>
public sealed record WhatIfProgramme(string Name, ProgrammeCourse Course, HerdRates Rates, ProgrammeTest Test);
