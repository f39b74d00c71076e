using CsCheck;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.Statistics;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Calendar.Tests.Generators;
using ReproLink.Calendar.Tests.Laws;

namespace ReproLink.Calendar.Tests.Figures.WhatIf;

/// <summary>What must hold of every what-if, over random programmes, rates and tests.</summary>
public sealed class WhatIfLaws
{
    private static readonly Gen<Estimate> Shares = Gen.Int[20, 400].SelectMany(n => Gen.Int[1, n - 1].Select(x => Estimate.Of(new Proportion(x, n), EstimateOrigin.Herd)!));

    private static readonly Gen<HerdRates> Rates =
        from first in Gen.Double[50, 110]
        from one in Shares
        from later in Shares
        from returns in Shares
        from loss in Gen.Int[0, 20]
        from ends in Gen.Double[0.5, 1]
        select new HerdRates
        {
            FirstServiceDays = new Estimate(first, new Interval(first - 2, first + 2), EstimateOrigin.Herd),
            PregnantFirst = one,
            PregnantLater = later,
            Returns = returns,
            Loss = Estimate.Of(new Proportion(loss, 100), EstimateOrigin.Herd)!,
            Ends = Estimate.Given(ends),
        };

    private static readonly Gen<ProgrammeTest> Tests =
        from sensitivity in Gen.Double[0.7, 1]
        from specificity in Gen.Double[0.7, 1]
        from inconclusive in Gen.Double[0, 0.15]
        from second in Gen.Bool
        select WhatIfCases.Test(sensitivity, specificity, inconclusive) with { SecondSample = second };

    private static readonly Gen<WhatIfProgramme> Programmes =
        from programme in RandomProgrammes.From(Day.Earliest)
        from rates in Rates
        from test in Tests
        let course = CourseMaker.Of(programme, []).Course
        where course is not null
        select new WhatIfProgramme("random", course, rates, test);

    [Fact]
    public void Shares_stay_between_none_and_all_and_what_is_pregnant_never_falls() => Programmes.Holds(programme =>
    {
        var figures = programme.Figures();
        Assert.All(figures.Pregnant, share =>
        {
            Assert.InRange(share!.Value, 0, 1 + 1e-12);
            Assert.InRange(share.Limits!.Value.Low, 0, share.Value);
            Assert.InRange(share.Limits.Value.High, share.Value - 1e-12, 1);
        });
        Assert.All(figures.Pregnant.Zip(figures.Pregnant.Skip(1)), pair => Assert.True(pair.First!.Value <= pair.Second!.Value + 1e-12));
        Assert.True(figures.DaysOpen!.Value >= programme.Rates.FirstServiceDays.Value && figures.Services!.Value >= 1);
    }, cases: 60);

    [Fact]
    public void A_better_test_never_ends_more_pregnancies_nor_takes_more_services() => Gen.Select(Programmes, Gen.Double[0, 1], Gen.Double[0, 1]).Holds(drawn =>
    {
        var (programme, toSensitivity, toSpecificity) = drawn;
        var test = programme.Test;
        var better = programme with
        {
            Test = test with
            {
                Sensitivity = Estimate.Given(test.Sensitivity.Value + ((1 - test.Sensitivity.Value) * toSensitivity)),
                Specificity = Estimate.Given(test.Specificity.Value + ((1 - test.Specificity.Value) * toSpecificity)),
            },
        };
        var (one, two) = (programme.Figures(), better.Figures());
        Assert.True(two.DestroyedOf100!.Value <= one.DestroyedOf100!.Value + 1e-9);
        Assert.True(two.Services!.Value <= one.Services!.Value + 1e-9);
    }, cases: 200);

    [Fact]
    public void A_slower_laboratory_never_makes_fewer_days() => Gen.Select(RandomProgrammes.From(Day.Earliest), Rates, Tests, Gen.Int[1, 5], Gen.Bool).Holds(drawn =>
    {
        var (programme, rates, test, days, onTheRoad) = drawn;
        var laboratory = programme.Laboratory;
        var slower = programme with
        {
            Laboratory = onTheRoad
                ? laboratory with { TransitDays = laboratory.TransitDays + days }
                : laboratory with { TurnaroundWorkingDays = laboratory.TurnaroundWorkingDays + days },
        };
        if (CourseMaker.Of(programme, []).Course is not { } fast || CourseMaker.Of(slower, []).Course is not { } slow)
        {
            return;
        }

        Assert.All(fast.ByWeekday.Zip(slow.ByWeekday), pair =>
        {
            Assert.True(pair.First.Open <= pair.Second.Open, $"{pair.First} {pair.Second}");
            Assert.True(pair.First.OpenAfterSecond <= pair.Second.OpenAfterSecond && pair.First.FoundLate <= pair.Second.FoundLate);
        });
        // Where a weekday's plan waits for its answer, the next weekday's may be served again before it: the rule, not the model.
        if (fast.WaitsForAnswer.Count == 0 && slow.WaitsForAnswer.Count == 0)
        {
            var compared = WhatIfComparison.Of([new("fast", fast, rates, test), new("slow", slow, rates, test)], null).Results[1];
            Assert.True(compared.FromFirst!.DaysOpen!.Value >= -1e-9, $"{compared.FromFirst.DaysOpen.Value}");
        }
    }, cases: 300);

    [Fact]
    public void Served_for_ever_the_bill_by_days_is_the_closed_form() => Programmes.Holds(programme =>
    {
        var figures = programme.Figures(new Prices { LastServiceDay = 4000, DayOpen = 3, Test = 4, Service = 20 });
        if (figures.NotPregnantAtEnd!.Value < 1e-12)
        {
            var bill = (3 * (figures.DaysOpen!.Value - programme.Rates.FirstServiceDays.Value)) + (4 * figures.Tests!.Value) + (20 * figures.Services!.Value);
            Assert.Equal(bill, figures.Money!.Value, 1e-6);
        }
    }, cases: 25);

    [Fact]
    public void Two_alike_do_not_differ_and_what_they_share_does_not_widen_the_difference() => Programmes.Holds(programme =>
    {
        var alike = WhatIfComparison.Of([programme, programme with { Name = "again" }], null).Results[1].FromFirst!;
        Assert.Equal((0.0, new Interval(0, 0)), (alike.DaysOpen!.Value, alike.DaysOpen.Limits));
        Assert.All(alike.Pregnant, share => Assert.Equal(0, share!.Value));
    }, cases: 20);
}
