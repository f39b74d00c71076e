using ReproLink.Calendar.Figures.Accuracy;
using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures.Accuracy;

/// <summary>Predictive values at a herd's own share pregnant, and a second sample. The case that hurts first.</summary>
public sealed class TestInHerdTests
{
    /// <summary>A rapid test read by eye (Mayo et al. 2016: 98 and 85 %) in a beef herd with 90 % pregnant: of the answers open more than a sixth are wrong.</summary>
    [Fact]
    public void Where_most_are_pregnant_an_open_is_often_wrong()
    {
        var beef = At(0.98, 0.85, 0.90);
        Assert.Equal(0.8252, beef.NegativePredictive!.Value, 0.00005);
        Assert.Equal(174.8, beef.WrongOfOpen!.Value, 0.05);
    }

    /// <summary>Bayes' rule on published accuracies: Mayo et al. 2016 plasma; latent classes 2018; Karen et al. 2015 ELISA from its counts.</summary>
    [Theory]
    [InlineData(0.97, 0.94, 159 / 320.0, 0.9411, 0.9694, 14.9, 30.2)]
    [InlineData(0.963, 0.870, 0.524, 0.8908, 0.9553, 19.4, 61.9)]
    [InlineData(37 / 41.0, 58 / 59.0, 0.41, 0.9737, 0.9355, 40.0, 10.0)]
    public void Predictive_values_and_wrong_answers_of_1000_tests(double se, double sp, double p, double ppv, double npv, double wrongOpen, double wrongPregnant)
    {
        var herd = At(se, sp, p);
        Assert.Equal(ppv, herd.PositivePredictive!.Value, 0.00005);
        Assert.Equal(npv, herd.NegativePredictive!.Value, 0.00005);
        Assert.Equal(wrongOpen, herd.WrongOpen!.Value, 0.05);
        Assert.Equal(wrongPregnant, herd.WrongPregnant!.Value, 0.05);
    }

    /// <summary>Arithmetic of Rogan and Gladen: 161 of 345 called pregnant, sensitivity 152/155, specificity 181/190.</summary>
    [Fact]
    public void The_tests_own_errors_are_taken_out_of_the_share_called_pregnant()
    {
        var rates = new TestRates(Estimate.Given(152 / 155.0), Estimate.Given(181 / 190.0));
        var herd = TestInHerd.AtCalled(rates, Estimate.Of(new FirstTests(161, 184, 12).CalledPregnant, EstimateOrigin.Herd)!);
        Assert.Equal(0.449275, herd.SharePregnant!.Value, 0.0000005);
        Assert.Equal(0.393572, herd.SharePregnant.Limits!.Value.Low, 0.0000005);
        Assert.Equal(0.505765, herd.SharePregnant.Limits.Value.High, 0.0000005);
        Assert.False(herd.OutOfRange);
    }

    /// <summary>Two open answers at 40 % pregnant: 2.08 % wrong with one, 0.07 % with two, only if their errors are independent.</summary>
    [Fact]
    public void A_second_sample_keeps_pregnancies_only_if_its_errors_are_its_own()
    {
        var herd = At(0.97, 0.94, 0.40);
        Assert.Equal(20.8, herd.WrongOfOpen!.Value, 0.05);
        var second = herd.Second!;
        Assert.Equal(12.0, second.WrongOpenWithOne.Value, 1e-9);
        Assert.Equal(0.36, second.WrongOpenIfIndependent.Value, 1e-9);
        Assert.Equal(12.0, second.WrongOpenIfRepeated.Value, 1e-9);
        Assert.Equal(0.0007, 0.36 / (0.36 + (1000 * 0.6 * 0.94 * 0.94)), 0.00005);
        Assert.Equal(1000 * ((0.6 * 0.94) + (0.4 * 0.03)), second.Tubes.Value, 1e-9);
        Assert.Equal(564, second.OpenWaiting.Value, 1e-9);
        // 576 tubes and 564 animals that wait a week keep 11.64 pregnancies.
        Assert.Equal(((576 * 4) + (564 * 7 * 3)) / 11.64, second.PaysFrom(4, 3, 7)!.Value, 1e-9);
    }

    [Fact]
    public void A_test_that_misses_none_has_nothing_for_a_second_sample_to_keep()
    {
        var second = At(1, 0.95, 0.4).Second!;
        Assert.Null(second.TubesForOne);
        Assert.Null(second.PaysFrom(4, 3, 7));
    }

    [Fact]
    public void A_share_such_a_test_cannot_give_is_said_to_be_out_of_range_and_a_coin_has_no_value()
    {
        var rates = new TestRates(Estimate.Given(0.98), Estimate.Given(0.80));
        var herd = TestInHerd.AtCalled(rates, Estimate.Of(new Proportion(1, 50), EstimateOrigin.Herd)!);
        Assert.True(herd.OutOfRange);
        Assert.Equal(0, herd.SharePregnant!.Value);
        var coin = TestInHerd.AtCalled(new TestRates(Estimate.Given(0.5), Estimate.Given(0.5)), Estimate.Given(0.4));
        Assert.Null(coin.SharePregnant);
        Assert.Null(coin.NegativePredictive);
    }

    /// <summary>Herds and studies drawn with a fixed seed: the limits hold the truth about as often as they say.</summary>
    [Fact]
    public void The_limits_of_the_predictive_values_cover_what_they_should()
    {
        const int Herds = 4000;
        var dice = new Random(20261005);
        var (positive, negative) = (0, 0);
        for (var i = 0; i < Herds; i++)
        {
            var p = 0.25 + (0.35 * dice.NextDouble());
            var (se, sp) = (0.92 + (0.06 * dice.NextDouble()), 0.88 + (0.1 * dice.NextDouble()));
            var rates = new TestRates(Drawn(dice, 160, se), Drawn(dice, 160, sp));
            var herd = TestInHerd.AtTrue(rates, Drawn(dice, 300, p));
            positive += Holds(herd.PositivePredictive, se * p / ((se * p) + ((1 - sp) * (1 - p)))) ? 1 : 0;
            negative += Holds(herd.NegativePredictive, sp * (1 - p) / ((sp * (1 - p)) + ((1 - se) * p))) ? 1 : 0;
        }

        Assert.InRange(positive / (double)Herds, 0.935, 0.985);
        Assert.InRange(negative / (double)Herds, 0.935, 0.985);
    }

    private static bool Holds(Estimate? estimate, double truth) => estimate!.Limits!.Value.Low <= truth && truth <= estimate.Limits.Value.High;

    private static Estimate Drawn(Random dice, int n, double share) =>
        Estimate.Of(new Proportion(Enumerable.Range(0, n).Count(_ => dice.NextDouble() < share), n), EstimateOrigin.Herd)!;

    private static TestInHerd At(double se, double sp, double p) =>
        TestInHerd.AtTrue(new TestRates(Estimate.Given(se), Estimate.Given(sp)), Estimate.Given(p));
}
