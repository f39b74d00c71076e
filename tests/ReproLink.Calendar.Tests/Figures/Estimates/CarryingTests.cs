using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures.Estimates;

/// <summary>Limits carried through a calculation.</summary>
public sealed class CarryingTests
{
    /// <summary>Newcombe 1998, Stat Med 17:873: the examples of the difference of two proportions.</summary>
    [Theory]
    [InlineData(56, 70, 48, 80)]
    [InlineData(9, 10, 3, 10)]
    [InlineData(6, 7, 2, 7)]
    [InlineData(5, 56, 0, 29)]
    [InlineData(0, 10, 0, 20)]
    [InlineData(10, 10, 0, 10)]
    public void Of_a_difference_they_are_Newcombes(int x1, int n1, int x2, int n2)
    {
        var (one, two) = (new Proportion(x1, n1), new Proportion(x2, n2));
        var carried = Carrying.One([Estimate.Of(one, EstimateOrigin.Herd)!, Estimate.Of(two, EstimateOrigin.Herd)!], v => v[0] - v[1])!;
        var expected = one.NewcombeDifference(two)!.Value;
        Assert.Equal(expected.Low, carried.Limits!.Value.Low, 1e-12);
        Assert.Equal(expected.High, carried.Limits.Value.High, 1e-12);
    }

    [Fact]
    public void Without_limits_of_any_input_there_are_none() =>
        Assert.Null(Carrying.One([Estimate.Given(0.4), Estimate.Given(2)], v => v[0] * v[1])!.Limits);

    [Fact]
    public void Out_of_none_there_is_no_estimate_and_a_result_that_is_no_number_has_no_value()
    {
        Assert.Null(Estimate.Of(new Proportion(0, 0), EstimateOrigin.Herd));
        Assert.Null(Carrying.One([Estimate.Given(0)], v => v[0] / v[0]));
    }

    [Fact]
    public void A_limit_that_does_not_exist_is_infinite_and_the_estimate_stands()
    {
        var few = Carrying.One([Estimate.Of(new Proportion(0, 5), EstimateOrigin.Herd)! with { Value = 0.1 }], v => 1 / v[0])!;
        Assert.Equal(10, few.Value);
        Assert.Equal(double.PositiveInfinity, few.Limits!.Value.High);
    }
}
