using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Calendar.Tests.Generators;
using ReproLink.Calendar.Tests.Laws;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Figures.WhatIf;

/// <summary>The herd's own rates are lines of its figures, counted where outcomes are known.</summary>
public sealed class HerdOwnRatesTests
{
    [Fact]
    public void A_herd_without_records_has_no_rate_and_says_so()
    {
        var own = HerdOwnRates.Of([], Cow.Defaults, Cow.Day("2026-10-05"), Cow.Later);
        Assert.All(new[] { own.FirstServiceDays, own.PregnantFirst, own.PregnantLater, own.Returns, own.Loss }, rate =>
        {
            Assert.Null(rate.Estimate);
            Assert.Equal((0, 0), (rate.Line.Numerator, rate.Line.Denominator));
            Assert.NotNull(rate.Line.NoValue);
        });
        Assert.Null(own.FirstTests.CalledPregnant.Value);
    }

    [Fact]
    public void They_are_the_lines_of_the_figures_of_their_period() => RandomAnimals.Herd.Holds(herd =>
    {
        var states = herd.Animals.Select(a => Folded.State(a, herd)).ToList();
        var own = HerdOwnRates.Of(states, herd.Rules, herd.AsOf, herd.KnownAt, to: herd.AsOf);
        var services = HerdFigures.Make(states, herd.Rules, new FigureQuestion(own.From, own.To), herd.AsOf, herd.KnownAt);
        var rechecked = HerdFigures.Make(states, herd.Rules, new FigureQuestion(Calendar.Dates.Day.Min(own.From, own.RecheckedTo), own.RecheckedTo), herd.AsOf, herd.KnownAt);
        Same(services["conception-risk"].Line("first"), own.PregnantFirst);
        Same(services["conception-risk"].Line("later"), own.PregnantLater);
        Same(rechecked["days-to-first-service"].Line("all"), own.FirstServiceDays);
        Same(rechecked["loss"].Line("early"), own.Loss);
        Assert.True(own.Returns.Line.Numerator <= own.Returns.Line.Denominator);
    }, cases: 60);

    /// <summary>
    /// Three failed services: she came back after 21 days; she was found open and served by protocol; she was found open and not
    /// served again. One of three returned. The fourth has no answer and is in nothing.
    /// </summary>
    [Fact]
    public void Who_was_served_again_before_a_test_could_count_returned()
    {
        var herd = new[]
        {
            Cow.Named("1", 1, "card parity 1", "2026-01-01 calving", "2026-04-01 insemination", "2026-04-22 insemination", "2026-05-25 blood pregnant"),
            Cow.Named("2", 11, "card parity 1", "2026-01-01 calving", "2026-04-01 insemination", "2026-05-01 blood open", "2026-05-08 insemination", "2026-06-10 blood open"),
            Cow.Named("3", 21, "card parity 1", "2026-01-01 calving", "2026-05-01 insemination"),
        }.Select(c => c.On(Cow.Day("2026-10-05"))).ToList();
        var own = HerdOwnRates.Of(herd, Cow.Defaults, Cow.Day("2026-10-05"), Cow.Later);
        Assert.Equal((1, 3), (own.Returns.Line.Numerator, own.Returns.Line.Denominator));
        Assert.Equal((0, 2), (own.PregnantFirst.Line.Numerator, own.PregnantFirst.Line.Denominator));
        Assert.Equal((1, 2), (own.PregnantLater.Line.Numerator, own.PregnantLater.Line.Denominator));
        Assert.Equal((1, 2, 0), (own.FirstTests.Pregnant, own.FirstTests.Open, own.FirstTests.Recheck));
    }

    private static void Same(FigureLine? expected, OwnRate rate) =>
        Assert.Equal((expected!.Numerator, expected.Denominator, expected.Value), (rate.Line.Numerator, rate.Line.Denominator, rate.Line.Value));
}
