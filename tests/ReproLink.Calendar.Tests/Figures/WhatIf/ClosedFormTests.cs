using System.Text.Json;
using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Calendar.Tests.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures.WhatIf;

/// <summary>The model against worked examples, by hand and by the check values kept beside the repository (own arithmetic on invented inputs).</summary>
public sealed class ClosedFormTests
{
    // I = (0.32·21 + 0.32·36) / 0.64 = 28.5; 70 + 0.58·(28.5 + (1/0.36 − 1)·28.5).
    [Fact]
    public void A_perfect_test_without_loss_is_the_hand_calculation()
    {
        var figures = WhatIfCases.Perfect.Figures();
        Assert.Equal(70 + (0.58 * (28.5 + (((1 / 0.36) - 1) * 28.5))), figures.DaysOpen!.Value, 1e-9);
        Assert.Equal(1 + (0.58 / 0.36), figures.Services!.Value, 1e-9);
        Assert.Equal(0, figures.DestroyedOf100!.Value);
    }

    [Fact]
    public void What_is_pregnant_by_a_day_begins_with_first_service()
    {
        var pregnant = WhatIfCases.Perfect.Figures().Pregnant;
        Assert.Equal(0, pregnant[69]!.Value);
        Assert.Equal(0.42, pregnant[70]!.Value, 1e-12);
        Assert.Equal(0.42, pregnant[90]!.Value, 1e-12);
        // A cow in two of those not pregnant returns after 21 days.
        Assert.Equal(0.42 + (0.29 * 0.36), pregnant[91]!.Value, 1e-12);
    }

    [Fact]
    public void A_mean_between_two_days_is_some_cows_on_each()
    {
        var rates = WhatIfCases.Rates(0) with { FirstServiceDays = Estimate.Given(70.25) };
        var figures = (WhatIfCases.Perfect with { Rates = rates }).Figures();
        Assert.Equal(0.75 * 0.42, figures.Pregnant[70]!.Value, 1e-12);
        Assert.Equal(0.42, figures.Pregnant[71]!.Value, 1e-12);
        Assert.Equal(WhatIfCases.Perfect.Figures().DaysOpen!.Value + 0.25, figures.DaysOpen!.Value, 1e-9);
    }

    [SkippableTheory]
    [InlineData("A_blood_test_d28_turnaround1")]
    [InlineData("A0_perfect_test_no_loss")]
    public void The_worked_programmes_are_reproduced(string name)
    {
        using var document = JsonDocument.Parse(File.ReadAllText(CheckTable.Path("what-if/programme_examples.json")));
        var example = document.RootElement.GetProperty("programmes").GetProperty(name);
        var (programme, prices) = (Programme(example.GetProperty("inputs")), Priced(document.RootElement.GetProperty("cost_inputs_invented_except_loss")));
        var figures = programme.Figures(prices);
        var closed = example.GetProperty("closed_form");
        Assert.Equal(closed.GetProperty("expected_days_open").GetDouble(), figures.DaysOpen!.Value, 1e-9);
        Assert.Equal(closed.GetProperty("expected_services").GetDouble(), figures.Services!.Value, 1e-9);
        Assert.Equal(closed.GetProperty("expected_tests").GetDouble(), figures.Tests!.Value, 1e-9);
        Assert.Equal(closed.GetProperty("expected_rechecks").GetDouble(), figures.Confirmations!.Value, 1e-9);
        Assert.Equal(closed.GetProperty("expected_iatrogenic_losses").GetDouble(), figures.DestroyedOf100!.Value / 100, 1e-9);
        var renewal = example.GetProperty("renewal");
        Assert.All(new[] { 100, 150, 200, 250, 300 }, day => Assert.Equal(renewal.GetProperty($"pregnant_by_{day}").GetDouble(), figures.Pregnant[day]!.Value, 1e-9));
        Assert.Equal(renewal.GetProperty("median_days_open").GetInt32(), Enumerable.Range(0, 301).First(t => figures.Pregnant[t]!.Value >= 0.5));
        // Served for ten years the bill is that of a cow bred until she is pregnant.
        Assert.Equal(example.GetProperty("cost_per_cow").GetDouble(), figures.Money!.Value, 1e-6);
        Assert.Equal(0, figures.NotPregnantAtEnd!.Value, 1e-9);
    }

    private static WhatIfProgramme Programme(JsonElement inputs)
    {
        double Of(string name) => inputs.GetProperty(name).GetDouble();
        return new WhatIfProgramme("check", WhatIfCases.Course((int)Of("T"), (int)Of("r"), (int)Of("q"), (int)Of("R")), new HerdRates
        {
            FirstServiceDays = Estimate.Given(Of("F")),
            PregnantFirst = Estimate.Given(Of("p1")),
            PregnantLater = Estimate.Given(Of("p2")),
            Returns = Estimate.Given(Of("e")),
            ReturnDays = Estimate.Given(Of("ret")),
            Loss = Estimate.Given(Of("loss")),
            Ends = Estimate.Given(Of("lam")),
        }, WhatIfCases.Test(Of("Se"), Of("Sp")));
    }

    private static Prices Priced(JsonElement costs)
    {
        double Of(string name) => costs.GetProperty(name).GetDouble();
        return new Prices
        {
            LastServiceDay = 3650,
            DayOpen = Of("day_open"),
            Test = Of("test"),
            Confirmation = Of("recheck"),
            Service = Of("service"),
            LostPregnancy = Of("iatrogenic_loss"),
        };
    }
}
