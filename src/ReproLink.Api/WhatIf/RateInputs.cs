using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.WhatIf;

namespace ReproLink.Api.WhatIf;

/// <summary>Rates as given; what is absent is the herd's own.</summary>
internal sealed record RateInputs
{
    public double? FirstServiceDays { get; init; }

    public double? PregnantFirst { get; init; }

    public double? PregnantLater { get; init; }

    public double? Returns { get; init; }

    public int? ReturnDays { get; init; }

    public double? Loss { get; init; }

    public double? PregnancyEnds { get; init; }

    public double? TestDay { get; init; }

    public double? ConfirmationDay { get; init; }

    public static RateInputs Read(ObjectReader reader, RateInputs? usual = null)
    {
        var inputs = new RateInputs
        {
            FirstServiceDays = Shares.Number(reader, "firstServiceDays", 20, 250) ?? usual?.FirstServiceDays,
            PregnantFirst = Shares.Number(reader, "pregnantFirst", 0.01, 1) ?? usual?.PregnantFirst,
            PregnantLater = Shares.Number(reader, "pregnantLater", 0.01, 1) ?? usual?.PregnantLater,
            Returns = Shares.Number(reader, "returns", 0, 1) ?? usual?.Returns,
            ReturnDays = reader.Integer("returnDays", 5, 60) ?? usual?.ReturnDays,
            Loss = Shares.Number(reader, "loss", 0, 0.9) ?? usual?.Loss,
            PregnancyEnds = Shares.Number(reader, "pregnancyEnds", 0, 1) ?? usual?.PregnancyEnds,
            TestDay = Shares.Number(reader, "testDay", 20, 200) ?? usual?.TestDay,
            ConfirmationDay = Shares.Number(reader, "confirmationDay", 20, 250) ?? usual?.ConfirmationDay,
        };
        reader.Done();
        return inputs;
    }

    /// <summary>The rates to reckon with; null when one is neither given nor counted in the herd, which is then reported once.</summary>
    public HerdRates? Herd(HerdOwnRates own, ProgrammeCourse? course, FieldProblems problems)
    {
        var byProtocol = course?.FirstServiceDays is { } dated ? new Estimate(dated, null, EstimateOrigin.Programme) : null;
        var firstDays = Given(FirstServiceDays) ?? byProtocol ?? Counted("firstServiceDays", own.FirstServiceDays, problems);
        var first = Given(PregnantFirst) ?? Counted("pregnantFirst", own.PregnantFirst, problems, aboveNone: true);
        var later = Given(PregnantLater) ?? Counted("pregnantLater", own.PregnantLater, problems, aboveNone: true);
        var returns = Given(Returns) ?? Counted("returns", own.Returns, problems);
        var loss = Given(Loss) ?? Counted("loss", own.Loss, problems);
        if (firstDays is null || first is null || later is null || returns is null || loss is null)
        {
            return null;
        }

        var rates = new HerdRates
        {
            FirstServiceDays = firstDays,
            PregnantFirst = first,
            PregnantLater = later,
            Returns = returns,
            Loss = loss,
            TestDay = TestDay,
            ConfirmationDay = ConfirmationDay,
        };
        return rates with
        {
            ReturnDays = Given(ReturnDays) ?? rates.ReturnDays,
            Ends = Given(PregnancyEnds) ?? rates.Ends,
        };
    }

    private static Estimate? Given(double? value) => value is { } number ? Estimate.Given(number) : null;

    private static Estimate? Counted(string name, OwnRate own, FieldProblems problems, bool aboveNone = false)
    {
        if (own.Estimate is { } estimate && (!aboveNone || estimate.Value > 0))
        {
            return estimate;
        }

        var field = $"rates/{name}";
        if (problems.List.All(p => p.Field != field))
        {
            var counted = own.Estimate is null ? "nothing to count in the period" : $"{own.Line.Numerator} of {own.Line.Denominator}";
            problems.Add(ProblemTypes.MissingProperty, field, null, "a value of yours", $"The herd has no value for '{name}' ({own.Line.Label}: {counted}): send one.");
        }

        return null;
    }
}
