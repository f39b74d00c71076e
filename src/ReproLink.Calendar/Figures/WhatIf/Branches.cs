namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>The ways one service on one weekday can go, with their chances; what it takes in tests and doses.</summary>
internal sealed class Branches
{
    private readonly List<(double Weight, int Days)> _failures = [];

    public Branches(ModelInputs inputs, double pregnant, int weekday)
    {
        var course = inputs.Course.ByWeekday[weekday];
        var (se, sp, k) = (inputs.Sensitivity, inputs.Specificity, inputs.Inconclusive);
        // Two samples must both say open; an inconclusive one is sampled again once, and that answer decides.
        var (seenOpen, missed) = inputs.SecondSample ? (sp * sp, (1 - se) * (1 - se)) : (sp, 1 - se);
        var onFirst = inputs.SecondSample ? course.OpenAfterSecond : course.Open;
        var open = (1 - pregnant) * (1 - inputs.Returns);
        var returns = (1 - pregnant) * inputs.Returns;
        var foundOpen = open * (1 - k) * seenOpen;
        var foundOpenLater = open * k * sp;
        var destroyed = pregnant * (1 - k) * missed * inputs.Ends;
        var destroyedLater = pregnant * k * (1 - se) * inputs.Ends;
        var kept = pregnant - destroyed - destroyedLater;
        var calledPregnant = open - foundOpen - foundOpenLater;
        Fail(returns, inputs.ReturnDays);
        Fail(foundOpen, onFirst);
        Fail(foundOpenLater, course.OpenAfterSecond);
        Fail(calledPregnant, course.FoundLate);
        Fail(destroyed, onFirst);
        Fail(destroyedLater, course.OpenAfterSecond);
        Fail(kept * inputs.Loss, course.FoundLate);
        Success = kept * (1 - inputs.Loss);
        Destroyed = destroyed + destroyedLater;
        Confirmations = kept + calledPregnant;
        var tested = pregnant + open;
        var firstOpen = (1 - k) * ((pregnant * (1 - se)) + (open * sp));
        Tests = (tested * (1 + k)) + (inputs.SecondSample ? firstOpen : 0);
        var decidedFirst = foundOpen + (pregnant * (1 - k) * missed);
        var decidedLater = foundOpenLater + (pregnant * k * (1 - se)) + calledPregnant + (kept * inputs.Loss);
        Doses = ((inputs.SecondSample ? 0 : decidedFirst) * course.AfterAnswer)
            + ((decidedLater + (inputs.SecondSample ? decidedFirst : 0)) * inputs.Course.Whole);
        foreach (var (day, doses) in course.BeforeAnswer)
        {
            Doses += (tested + (day < inputs.ReturnDays ? returns : 0)) * doses;
        }
    }

    /// <summary>Failures: chance, and days to the next service.</summary>
    public IReadOnlyList<(double Weight, int Days)> Failures => _failures;

    /// <summary>Chance of a pregnancy that is kept.</summary>
    public double Success { get; }

    /// <summary>Chance of a pregnancy ended by treatment after a wrong <c>open</c>.</summary>
    public double Destroyed { get; }

    /// <summary>Tests to find out.</summary>
    public double Tests { get; }

    /// <summary>Confirmations of animals called pregnant.</summary>
    public double Confirmations { get; }

    /// <summary>Doses after the service.</summary>
    public Doses Doses { get; }

    private void Fail(double weight, int days) => _failures.Add((weight, days));
}
