using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.Statistics;
using ReproLink.Calendar.Figures.WhatIf;
using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Figures.WhatIf;

/// <summary>The course of a service comes from the calendar that plans real animals: weekdays, laboratory, starts.</summary>
public sealed class CourseTests
{
    private static readonly Programme Usual = new() { InForceFrom = Day.Earliest };

    [Fact]
    public void The_days_between_services_are_those_of_the_programme_check()
    {
        var chains = ProgrammeCheck.Run(Usual, Cow.Defaults, Cow.Day("2026-06-04")).Chains;
        Assert.Equal(chains.Select(c => c.IntervalDays!.Value), Of(Usual).ByWeekday.Select(c => c.Open));
    }

    /// <summary>Served on Thursday: GnRH on day 25, drawn on Thursday day 28, answer on Friday, prostaglandin on Monday day 32, insemination on day 35.</summary>
    [Fact]
    public void A_laboratory_four_days_slower_costs_a_week_where_starts_are_weekly()
    {
        var slower = Of(Usual with { Laboratory = new Laboratory { TurnaroundWorkingDays = 4 } });
        var thursday = (int)IsoDayOfWeek.Thursday - 1;
        Assert.Equal((28, 35), (Of(Usual).ByWeekday[thursday].TestDay, Of(Usual).ByWeekday[thursday].Open));
        Assert.Equal(42, slower.ByWeekday[thursday].Open);
        var compared = Compared(Of(Usual), slower).DaysOpen!;
        Assert.InRange(compared.Value, 3, 7 * 1.4);
        Assert.True(compared.Limits!.Value.Low > 0, "the herd's conception risk alone cannot make a slower laboratory free");
    }

    [Fact]
    public void Without_a_protocol_or_without_a_timed_insemination_there_is_no_course()
    {
        Assert.Equal(NoCourse.NoProtocol, CourseMaker.Of(Usual with { Resynchronisation = new ResynchronisationChoice { Protocol = null } }, []).Why);
        Assert.Equal(NoCourse.NoInsemination, CourseMaker.Of(Usual with { Resynchronisation = new ResynchronisationChoice { Protocol = "pgf-11d-heifer", Start = StartRule.AtResult } }, []).Why);
    }

    [Fact]
    public void A_weekday_whose_answer_is_never_in_time_waits_for_it_and_says_so()
    {
        var late = Of(Usual with { Laboratory = new Laboratory { TurnaroundWorkingDays = 30 } });
        Assert.Equal(7, late.WaitsForAnswer.Count);
        Assert.All(late.ByWeekday, c => Assert.True(c.Open > 28 + 42 && c.BeforeAnswer.Count == 0));
    }

    [Fact]
    public void A_wrong_pregnant_waits_for_the_confirmation_and_where_the_programme_wants_it_for_a_second_open()
    {
        var confirm = Of(Usual).ByWeekday;
        var accept = Of(Usual with { Test = new TestRules { OpenAfterPregnant = OpenAfterPregnant.Accept } }).ByWeekday;
        Assert.All(confirm.Zip(accept), pair => Assert.Equal(7, pair.First.FoundLate - pair.Second.FoundLate));
        Assert.All(confirm, c => Assert.InRange(c.ConfirmationDay, 74, 80));
    }

    [Fact]
    public void Doses_are_those_of_the_protocol_early_ones_for_all_and_late_ones_for_the_open()
    {
        // Nobody returns, the test is perfect, nothing is lost: one service in three takes.
        var rates = WhatIfCases.Rates(0) with { PregnantFirst = Estimate.Given(1 / 3.0), PregnantLater = Estimate.Given(1 / 3.0), Returns = Estimate.Given(0) };
        var figures = new WhatIfProgramme("doses", Of(Usual), rates, WhatIfCases.Test(1, 1)).Figures();
        Assert.Equal(3, figures.Services!.Value, 1e-9);
        Assert.Equal(3 + 2, figures.Gnrh!.Value, 1e-9);
        Assert.Equal(2, figures.Pgf!.Value, 1e-9);
        Assert.Equal(0, figures.Inserts!.Value);
    }

    /// <summary>Carvalho et al. 2014, J Dairy Sci 97: Double-Ovsynch ends in an insemination 27 days after its start.</summary>
    [Fact]
    public void First_service_by_protocol_falls_on_its_own_weekdays()
    {
        var course = Of(Usual with { FirstService = new FirstServiceChoice(80, "double-ovsynch-56", [IsoDayOfWeek.Friday]) });
        Assert.Equal(1, course.FirstServiceWeekdays[(int)IsoDayOfWeek.Thursday - 1]);
        Assert.InRange(course.FirstServiceDays!.Value, 80, 87);
        Assert.True(course.FirstService.Pgf >= 2);
    }

    [Fact]
    public void Later_test_days_describe_the_same_pregnancies()
    {
        // With 8 % lost between day 28 and day 60, a test on day 44 finds fewer pregnancies and sees fewer of them lost.
        var early = new WhatIfProgramme("28", WhatIfCases.Course(28, 1, 7, 60), WhatIfCases.Rates(0.08), WhatIfCases.Test(1, 1));
        var late = early with { Name = "44", Course = WhatIfCases.Course(44, 1, 7, 60) };
        var compared = WhatIfComparison.Of([early, late], null);
        Assert.Equal(compared.Results[0].Figures.Services!.Value, compared.Results[1].Figures.Services!.Value, 1e-9);
        Assert.True(compared.Results[1].FromFirst!.DaysOpen!.Value > 0);
    }

    private static ProgrammeCourse Of(Programme programme) => CourseMaker.Of(programme, []).Course!;

    private static WhatIfFigures Compared(ProgrammeCourse one, ProgrammeCourse two)
    {
        var rates = WhatIfCases.Rates(0.08) with { PregnantLater = Estimate.Of(new Proportion(36, 100), EstimateOrigin.Herd)! };
        var test = WhatIfCases.Test(0.98, 0.95);
        return WhatIfComparison.Of([new("one", one, rates, test), new("two", two, rates, test)], null).Results[1].FromFirst!;
    }
}
