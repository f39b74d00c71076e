using NodaTime;
using ReproLink.Api.Programmes;

namespace ReproLink.Api.WhatIf;

/// <summary>Programmes to compare, and what to reckon them with. What is left out is the herd's own.</summary>
public sealed record WhatIfInput
{
    /// <summary>One to four programmes; the first is what the others are compared with.</summary>
    public required IReadOnlyList<WhatIfProgrammeInput> Programmes { get; init; }

    /// <summary>Rates of all programmes in place of the herd's own.</summary>
    public RateInput? Rates { get; init; }

    /// <summary>The test of all programmes.</summary>
    public TestInput? Test { get; init; }

    /// <summary>Your prices; absent = no money. There are no default prices.</summary>
    public PriceInput? Prices { get; init; }

    /// <summary>First day of the services the herd's own rates count; absent = a year before `to`.</summary>
    public LocalDate? From { get; init; }

    /// <summary>Last day of those services, at least 60 days ago; absent = 60 days ago.</summary>
    public LocalDate? To { get; init; }
}

/// <summary>One programme to compare.</summary>
public sealed record WhatIfProgrammeInput
{
    /// <summary>What you call it.</summary>
    /// <example>Laboratory four days slower</example>
    public required string Name { get; init; }

    /// <summary>What differs from the herd's programme, as in a programme; what is not named stays.</summary>
    public ProgrammeInput? Changes { get; init; }

    /// <summary>Days in place of those the programme check dates; doses are then not counted.</summary>
    public DayInput? Days { get; init; }

    /// <summary>Rates of this programme, such as `returns` with better oestrus detection.</summary>
    public RateInput? Rates { get; init; }

    /// <summary>The test of this programme.</summary>
    public TestInput? Test { get; init; }
}

/// <summary>Rates; each left out is the herd's own.</summary>
public sealed record RateInput
{
    /// <summary>Days from calving to first service, 20 to 250.</summary>
    /// <example>70</example>
    public double? FirstServiceDays { get; init; }

    /// <summary>Share of first services pregnant at the test day, 0.01 to 1.</summary>
    /// <example>0.42</example>
    public double? PregnantFirst { get; init; }

    /// <summary>Share of later services pregnant at the test day, 0.01 to 1.</summary>
    /// <example>0.36</example>
    public double? PregnantLater { get; init; }

    /// <summary>Share of failed services after which she is seen in oestrus and served again before the test, 0 to 1.</summary>
    /// <example>0.5</example>
    public double? Returns { get; init; }

    /// <summary>Days to that next service, 5 to 60; absent = 21.</summary>
    /// <example>21</example>
    public int? ReturnDays { get; init; }

    /// <summary>Share of pregnancies lost from the test to the confirmation, 0 to 0.9.</summary>
    /// <example>0.08</example>
    public double? Loss { get; init; }

    /// <summary>Chance that prostaglandin ends a pregnancy, 0 to 1; absent = 1.</summary>
    /// <example>1</example>
    public double? PregnancyEnds { get; init; }

    /// <summary>Day after service the rates speak of; absent = the first programme's test day.</summary>
    /// <example>28</example>
    public double? TestDay { get; init; }

    /// <summary>Day of confirmation they speak of; absent = the first programme's.</summary>
    /// <example>60</example>
    public double? ConfirmationDay { get; init; }
}

/// <summary>A test: a published study, or rates of your own.</summary>
public sealed record TestInput
{
    /// <summary>A study of `GET …/test-accuracy` that can be reckoned with; absent = mayo-2016-plasma.</summary>
    /// <example>karen-2015-pag-elisa</example>
    public string? Study { get; init; }

    /// <summary>Sensitivity in place of the study's.</summary>
    /// <example>0.98</example>
    public double? Sensitivity { get; init; }

    /// <summary>Specificity in place of the study's.</summary>
    /// <example>0.95</example>
    public double? Specificity { get; init; }

    /// <summary>Share of inconclusive results, 0 to 0.9; absent = the herd's own, else the study's, else none.</summary>
    /// <example>0.05</example>
    public double? Inconclusive { get; init; }

    /// <summary>True: treated only when a second sample says open too.</summary>
    /// <example>false</example>
    public bool? SecondSample { get; init; }
}

/// <summary>Days, all four of them.</summary>
public sealed record DayInput
{
    /// <summary>Service to test, from 28.</summary>
    /// <example>28</example>
    public required int Test { get; init; }

    /// <summary>Test to result.</summary>
    /// <example>1</example>
    public required int Result { get; init; }

    /// <summary>Result to next service.</summary>
    /// <example>7</example>
    public required int NextService { get; init; }

    /// <summary>Service to confirmation.</summary>
    /// <example>60</example>
    public required int Confirmation { get; init; }
}

/// <summary>Prices in one currency; each left out is not in the sum.</summary>
public sealed record PriceInput
{
    /// <summary>Last day in milk on which a cow is served, 30 to 1,000: without an end there is no bill.</summary>
    /// <example>300</example>
    public required int LastServiceDay { get; init; }

    /// <summary>The currency, to print.</summary>
    /// <example>USD</example>
    public string? Currency { get; init; }

    /// <summary>A day open after first service.</summary>
    /// <example>3</example>
    public double? DayOpen { get; init; }

    /// <summary>A service.</summary>
    /// <example>20</example>
    public double? Service { get; init; }

    /// <summary>A pregnancy test.</summary>
    /// <example>3</example>
    public double? Test { get; init; }

    /// <summary>A confirmation.</summary>
    /// <example>3</example>
    public double? Confirmation { get; init; }

    /// <summary>A dose of GnRH.</summary>
    /// <example>2</example>
    public double? Gnrh { get; init; }

    /// <summary>A dose of prostaglandin.</summary>
    /// <example>2</example>
    public double? Pgf { get; init; }

    /// <summary>A progesterone insert.</summary>
    /// <example>9</example>
    public double? Insert { get; init; }

    /// <summary>A pregnancy ended by treatment.</summary>
    /// <example>500</example>
    public double? LostPregnancy { get; init; }
}
