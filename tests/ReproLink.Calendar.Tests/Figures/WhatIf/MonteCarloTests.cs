using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Tests.Figures.WhatIf;

/// <summary>
/// Cows followed one by one with a seeded dice, told only what a cow and a tester do: pregnant or not, seen in oestrus or not, tube
/// after tube, weekday after weekday. The model must agree within the error of the dice.
/// </summary>
public sealed class MonteCarloTests
{
    private const int Cows = 60_000;

    /// <summary>The simulated means kept beside the check values: 129.338 and 115.741 days open (standard errors 0.176 and 0.140).</summary>
    [Theory]
    [InlineData(false, 129.338, 0.176)]
    [InlineData(true, 115.741, 0.140)]
    public void Agrees_with_another_simulation_of_the_worked_programmes(bool perfect, double mean, double error) =>
        Assert.Equal(mean, (perfect ? WhatIfCases.Perfect : WhatIfCases.BloodTestDay28).Figures().DaysOpen!.Value, 3 * error);

    [Theory]
    [InlineData(0, false, 1)]
    [InlineData(0.08, false, 0.8)]
    [InlineData(0.05, true, 1)]
    public void Agrees_on_a_real_week_with_inconclusive_and_second_samples(double inconclusive, bool second, double ends)
    {
        var (course, _) = CourseMaker.Of(new Programme
        {
            InForceFrom = Calendar.Dates.Day.Earliest,
            Laboratory = new Laboratory { TurnaroundWorkingDays = 2 },
            Week = new WeekRoutine { StartDays = [NodaTime.IsoDayOfWeek.Monday, NodaTime.IsoDayOfWeek.Wednesday] },
        }, []);
        var programme = new WhatIfProgramme(
            "real week", course!, WhatIfCases.Rates(0.09) with { Ends = Calendar.Figures.Estimates.Estimate.Given(ends) },
            WhatIfCases.Test(0.93, 0.9, inconclusive) with { SecondSample = second });
        var figures = programme.Figures();
        var cows = Follow(programme, new Random(20261005));
        Near(figures.DaysOpen!.Value, cows.Select(c => (double)c.DaysOpen));
        Near(figures.Services!.Value, cows.Select(c => (double)c.Services));
        Near(figures.Tests!.Value, cows.Select(c => (double)c.Tests));
        Near(figures.Confirmations!.Value, cows.Select(c => (double)c.Confirmations));
        Near(figures.DestroyedOf100!.Value / 100, cows.Select(c => (double)c.Destroyed));
        Near(figures.Gnrh!.Value, cows.Select(c => c.Doses.Gnrh));
        Near(figures.Pgf!.Value, cows.Select(c => c.Doses.Pgf));
        Assert.All(WhatIfFigures.Days, day => Near(figures.Pregnant[day]!.Value, cows.Select(c => c.DaysOpen <= day ? 1.0 : 0)));
    }

    private static void Near(double model, IEnumerable<double> cows)
    {
        var values = cows.ToList();
        var mean = values.Average();
        var error = Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / (values.Count - 1.0) / values.Count);
        // Four standard errors: one in 16,000 by chance, and the seed is fixed.
        Assert.InRange(model, mean - (4 * error) - 1e-12, mean + (4 * error) + 1e-12);
    }

    private sealed record Cow
    {
        public int DaysOpen { get; set; }

        public int Services { get; set; }

        public int Tests { get; set; }

        public int Confirmations { get; set; }

        public int Destroyed { get; set; }

        public Doses Doses { get; set; }
    }

    private static List<Cow> Follow(WhatIfProgramme p, Random dice)
    {
        var cows = new List<Cow>(Cows);
        for (var i = 0; i < Cows; i++)
        {
            var cow = new Cow { DaysOpen = (int)p.Rates.FirstServiceDays.Value };
            var weekday = dice.Next(7);
            for (var next = Serve(p, cow, weekday, dice); next > 0; next = Serve(p, cow, weekday, dice))
            {
                cow.DaysOpen += next;
                weekday = (weekday + next) % 7;
            }

            cows.Add(cow);
        }

        return cows;
    }

    // Days to the next service; 0 = she is pregnant for good.
    private static int Serve(WhatIfProgramme p, Cow cow, int weekday, Random dice)
    {
        bool In(double chance) => dice.NextDouble() < chance;
        var course = p.Course.ByWeekday[weekday];
        var pregnant = In(++cow.Services == 1 ? p.Rates.PregnantFirst.Value : p.Rates.PregnantLater.Value);
        if (!pregnant && In(p.Rates.Returns.Value))
        {
            cow.Doses = Sum(cow.Doses, course.BeforeAnswer.Where(b => b.Day < 21).Select(b => b.Doses));
            return 21;
        }

        cow.Doses = Sum(cow.Doses, course.BeforeAnswer.Select(b => b.Doses));
        bool SaysOpen()
        {
            cow.Tests++;
            return In(pregnant ? 1 - p.Test.Sensitivity.Value : p.Test.Specificity.Value);
        }

        var late = In(p.Test.Inconclusive.Value);
        cow.Tests += late ? 1 : 0;
        var open = SaysOpen();
        if (open && !late && p.Test.SecondSample)
        {
            late = true;
            open = SaysOpen();
        }

        if (open && (!pregnant || In(p.Rates.Ends.Value)))
        {
            cow.Destroyed += pregnant ? 1 : 0;
            cow.Doses += late ? p.Course.Whole : course.AfterAnswer;
            return late ? course.OpenAfterSecond : course.Open;
        }

        // A pregnancy that outlives the treatment got it all the same.
        cow.Doses += open ? (late ? p.Course.Whole : course.AfterAnswer) : default;
        cow.Confirmations++;
        if (!pregnant || In(p.Rates.Loss.Value))
        {
            cow.Doses += p.Course.Whole;
            return course.FoundLate;
        }

        return 0;
    }

    private static Doses Sum(Doses doses, IEnumerable<Doses> more) => more.Aggregate(doses, (a, b) => a + b);
}
