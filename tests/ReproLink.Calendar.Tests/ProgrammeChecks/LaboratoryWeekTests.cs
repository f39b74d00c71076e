using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;
using ReproLink.TestSupport.Plans;

namespace ReproLink.Calendar.Tests.ProgrammeChecks;

/// <summary>
/// A turnaround is counted in the laboratory's working days, not as a constant: service on Thursday, prostaglandin on Monday
/// at 8 (arithmetic of Resynch-25: GnRH on day 25, prostaglandin on day 32).
/// </summary>
public sealed class LaboratoryWeekTests
{
    private static readonly Day Thursday = Cow.Day("2026-06-04");

    [Fact]
    public void Thursday_draw_read_on_Friday_evening_serves_Monday()
    {
        var chain = Chain(Programme([IsoDayOfWeek.Thursday], working: 0, new LocalTime(17, 0)));
        Assert.Equal((28, 25, 32, 0), (chain.LastDraw!.Value - Thursday, At(chain, "gnrh-1"), At(chain, "pgf-1"), chain.Slips));
        Assert.Equal(new LocalDateTime(2026, 7, 3, 17, 0), chain.Result);
    }

    [Fact]
    public void Thursday_draw_read_on_Monday_midday_is_too_late_and_Tuesday_is_day_33_and_36()
    {
        var monday = Programme([IsoDayOfWeek.Thursday], working: 1, new LocalTime(12, 0));
        Assert.Equal(1, Chain(monday).Slips);
        var tuesday = Chain(monday with { Week = monday.Week with { StartDays = [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday] } });
        Assert.Equal((1, 28, 33, 36), (tuesday.Slips, tuesday.LastDraw!.Value - Thursday, At(tuesday, "pgf-1"), At(tuesday, "inseminate")));
        Assert.Contains(tuesday.Findings, f => f.Problem == CheckProblem.Slip);
    }

    [Fact]
    public void Friday_draw_reaches_the_laboratory_on_Monday_and_is_too_late() =>
        Assert.True(Chain(Programme([IsoDayOfWeek.Friday], working: 0, new LocalTime(17, 0))).Slips > 0);

    [Fact]
    public void On_farm_test_on_Monday_morning_serves_that_session()
    {
        var programme = Programme([IsoDayOfWeek.Monday], working: 0, new LocalTime(17, 0));
        var chain = Chain(programme with { Laboratory = new Laboratory { Kind = LaboratoryKind.OnFarm } });
        Assert.Equal((0, 32, 32), (chain.Slips, chain.LastDraw!.Value - Thursday, At(chain, "pgf-1")));
    }

    [Fact]
    public void Wednesday_is_day_27_and_not_allowed() =>
        Assert.True(Chain(Programme([IsoDayOfWeek.Wednesday], working: 0, new LocalTime(17, 0))).Slips > 0);

    [Fact]
    public void Every_suggestion_mends_what_it_was_made_for()
    {
        var programme = Programme([IsoDayOfWeek.Wednesday], working: 2, new LocalTime(17, 0));
        var findings = ProgrammeCheck.Run(programme, Cow.Defaults, Thursday).Chains.SelectMany(c => c.Findings).ToList();
        Assert.Contains(findings, f => f.Problem == CheckProblem.Slip);
        Assert.Contains(findings, f => f.Suggestion is { Property: "week.samplingDays" });
    }

    [Fact]
    public void Infeasible_programme_is_not_feasible_and_weekend_and_off_hours_steps_are_named()
    {
        var never = Programme([IsoDayOfWeek.Monday], working: 0, new LocalTime(17, 0)).Resynchronised("ovsynch-56", StartRule.BeforeResult, 1);
        never = never with { Week = never.Week with { StartDays = SavedProgrammes.EveryDay } };
        Assert.False(ProgrammeCheck.Run(never, Cow.Defaults, Thursday).IsFeasible);

        // A 48 h schedule begun at 8 in the morning inseminates at midnight; begun on Thursday it works on Saturday and Sunday.
        var odd = Programme([IsoDayOfWeek.Monday], working: 0, new LocalTime(17, 0)).Resynchronised("ovsynch-48");
        odd = odd with { Week = odd.Week with { Afternoon = new LocalTime(8, 0), StartDays = [IsoDayOfWeek.Thursday] } };
        var findings = ProgrammeCheck.Run(odd, Cow.Defaults, Thursday).Chains.SelectMany(c => c.Findings).ToList();
        Assert.Contains(findings, f => f is { Problem: CheckProblem.WeekendStep, Step.Id: "gnrh-2" });
        Assert.Contains(findings, f => f is { Problem: CheckProblem.OffHoursStep, Step.Id: "inseminate" });
    }

    /// <summary>Source: Carvalho et al. 2014 J Dairy Sci 97: 53, 60, 63, 70, 77 days in milk, insemination at 80.</summary>
    [Fact]
    public void Double_Ovsynch_falls_on_53_60_63_70_77_and_80_days_in_milk()
    {
        var programme = Programme([IsoDayOfWeek.Thursday], 0, new LocalTime(17, 0)) with { FirstService = new FirstServiceChoice(80, "double-ovsynch-56", [IsoDayOfWeek.Friday]) };
        // Day 53 is a Friday for cows that calved on a Monday.
        var chain = ProgrammeCheck.Run(programme, Cow.Defaults, Thursday).Chains.Single(c => c.From == ChainFrom.Calving && c.Weekday == IsoDayOfWeek.Monday);
        Assert.Equal([53, 60, 63, 70, 77, 79, 80], chain.Steps.Select(s => Day.From(s.At.Date) - chain.On));
    }

    private static Programme Programme(IsoDayOfWeek[] sampling, int working, LocalTime report) => new()
    {
        InForceFrom = Thursday,
        Week = new WeekRoutine { SamplingDays = [.. sampling], StartDays = [IsoDayOfWeek.Monday], Morning = new LocalTime(8, 0) },
        Laboratory = new Laboratory
        {
            DispatchDays = [IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday],
            TurnaroundWorkingDays = working,
            ReportTime = report,
        },
    };

    private static CheckChain Chain(Programme programme) => ProgrammeCheck.Run(programme, Cow.Defaults, Thursday).Chains
        .Single(c => c is { From: ChainFrom.Service, Heifer: false, Weekday: IsoDayOfWeek.Thursday });

    private static int At(CheckChain chain, string step) => Day.From(chain.Steps.Single(s => s.Id == step).At.Date) - chain.On;
}
