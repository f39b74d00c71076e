using System.Collections.Immutable;
using NodaTime;
using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;
using ReproLink.TestSupport.Plans;

namespace ReproLink.Calendar.Tests.Resynchronisation;

/// <summary>Where a plan starts: rules S1, S2, S10 and first service.</summary>
public sealed class StartTests
{
    // Service on Thursday 10 September 2026: day 25 is Monday 5 October.
    private static readonly Cow Cow1042 = Cow.Of("card parity 1", "2026-05-01 calving", "2026-09-10 insemination");

    [Fact]
    public void Start_slips_by_one_week_when_no_draw_day_is_left_and_says_why()
    {
        // Drawn on Wednesdays only: day 27 is too early, the next is day 34, after the prostaglandin of day 32.
        var plan = Cow1042.Plans(Sampling(IsoDayOfWeek.Wednesday), "2026-10-01T12:00:00Z").Current!;
        Assert.Equal((Cow.Day("2026-10-12"), 1), (plan.Start, plan.Slips));
        Assert.Contains("slipped 1 start day:", Assert.Single(plan.Reasons).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(4, "2026-10-26", 3)]
    [InlineData(3, "2026-10-19", 2)]
    public void Start_slips_at_most_three_weeks(int slowWeeks, string start, int slips)
    {
        var plan = Cow1042.Plans(Slow(slowWeeks), "2026-09-20T12:00:00Z").Current!;
        Assert.Equal((Cow.Day(start), slips), (plan.Start, plan.Slips));
    }

    [Fact]
    public void After_three_slips_there_is_no_plan_until_open_and_then_it_starts_at_the_result()
    {
        var rules = Slow(5);
        Assert.Null(Cow1042.Plans(rules, "2026-10-20T12:00:00Z").Current);
        var open = Cow1042.With("2026-10-08 blood open reported 2026-11-09T13:00:00Z");
        // Reported on Monday 9 November at 7 in Chicago: that session has begun, the next is a week later.
        Assert.Equal("gnrh-1 2026-11-16 07:00 firm", open.Plan(rules, "2026-11-09T14:00:00Z")[0]);
    }

    [Theory]
    [InlineData("2026-10-19T11:59:00Z", "2026-10-19")]
    [InlineData("2026-10-19T12:00:00Z", "2026-10-26")]
    public void At_result_starts_with_the_first_session_that_begins_after_the_result_is_known(string reported, string start)
    {
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("ovsynch-56", StartRule.AtResult));
        Assert.Null(Cow1042.Plans(rules, "2026-10-12T12:00:00Z").Current);
        Assert.Equal(Cow.Day(start), Cow1042.With($"2026-10-08 blood open reported {reported}").Plans(rules, "2026-10-19T12:00:00Z").Current!.Start);
    }

    [Fact]
    public void A_second_open_does_not_date_an_at_result_plan_anew()
    {
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("ovsynch-56", StartRule.AtResult));
        var twice = Cow1042.With("2026-10-08 blood open", "2026-10-14 blood open");
        Assert.Equal(Cow.Day("2026-10-12"), twice.Plans(rules, "2026-10-15T12:00:00Z").Current!.Start);
    }

    [Fact]
    public void Pregnant_after_open_cancels_an_at_result_plan_and_leaves_its_lines()
    {
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("ovsynch-56", StartRule.AtResult));
        var plan = Cow1042.With("2026-10-08 blood open", "2026-10-14 blood pregnant").Plan(rules, "2026-10-15T12:00:00Z");
        Assert.Equal(["gnrh-1 2026-10-12 07:00 done assumed", "pgf-1 2026-10-19 07:00 cancelled"], plan.Take(2));
    }

    [Theory]
    [InlineData("2026-10-02 07:00", "2026-10-05")] // 72 hours early
    [InlineData("2026-10-02 06:59", null)]
    [InlineData("2026-10-08 07:00", "2026-10-05")] // 72 hours late
    [InlineData("2026-10-09 06:59", null)]
    [InlineData("2026-10-09 07:00", "2026-10-12")]
    public void A_recorded_first_step_pins_the_start_within_72_hours(string given, string? start)
    {
        // Drawn on Wednesdays: unpinned the start slips to the 12th.
        var plan = Cow1042.With($"{given} treatment gnrh").Plans(Sampling(IsoDayOfWeek.Wednesday), "2026-10-09T18:00:00Z");
        Assert.Equal(Cow.Day(start ?? "2026-10-12"), (start == "2026-10-05" ? plan.Current ?? plan.Earlier[^1] : plan.Current!).Start);
    }

    [Fact]
    public void Of_two_starts_equally_near_the_earlier_is_pinned()
    {
        var rules = SavedProgrammes.Approved(p => p with { Week = p.Week with { StartDays = [IsoDayOfWeek.Monday, IsoDayOfWeek.Wednesday], SamplingDays = [IsoDayOfWeek.Thursday] } });
        Assert.Equal(Cow.Day("2026-10-05"), Cow1042.With("2026-10-06 07:00 treatment gnrh").Plans(rules, "2026-10-06T18:00:00Z").Current!.Start);
    }

    [Fact]
    public void A_closed_date_is_no_start_and_no_draw()
    {
        var closed = SavedProgrammes.Approved(p => p with { Week = p.Week with { ClosedDates = [Cow.Day("2026-10-05")] } });
        Assert.Equal(Cow.Day("2026-10-12"), Cow1042.Plans(closed, "2026-10-01T12:00:00Z").Current!.Start);
    }

    [Fact]
    public void An_afternoon_protocol_starts_in_the_afternoon_and_off_hours_steps_are_warned_not_moved()
    {
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("ovsynch-48"));
        Assert.Equal(
            ["gnrh-1 2026-10-05 16:00 firm", "pgf-1 2026-10-12 16:00 conditional not-open", "gnrh-2 2026-10-14 16:00 conditional not-open", "inseminate 2026-10-15 08:00 conditional not-open"],
            Cow1042.Plan(rules, "2026-10-01T12:00:00Z"));
        var late = SavedProgrammes.Approved(p => p.Resynchronised("ovsynch-56") with { Week = p.Week with { Morning = new LocalTime(13, 0) } });
        Assert.Equal("gnrh-2 2026-10-14 21:00 conditional not-open off-hours", Cow1042.Plan(late, "2026-10-01T12:00:00Z")[2]);
    }

    [Fact]
    public void The_version_of_her_service_governs_the_protocol_and_each_day_its_own_weekday()
    {
        var rules = Two(p => p, p => p.Resynchronised("cosynch-72") with { Week = p.Week with { StartDays = [IsoDayOfWeek.Tuesday] } }, "2026-09-11");
        var plan = Cow1042.Plans(rules, "2026-10-01T12:00:00Z").Current!;
        Assert.Equal(("ovsynch-56", Cow.Day("2026-10-06")), (plan.Protocol.Id, plan.Start));
        Assert.Equal("cosynch-72", Cow1042.Plans(Two(p => p, p => p.Resynchronised("cosynch-72"), "2026-09-10"), "2026-10-01T12:00:00Z").Current!.Protocol.Id);
    }

    [Theory]
    [InlineData("2026-06-01", "2026-07-24")] // day 53 is a Friday
    [InlineData("2026-06-02", "2026-07-31")]
    [InlineData("2026-05-31", "2026-07-24")]
    public void First_service_starts_on_its_own_weekday_so_that_the_insemination_keeps_the_waiting_period(string calved, string start)
    {
        var rules = FirstService("double-ovsynch-56", 80);
        var plan = Cow.Of("card parity 1", $"{calved} calving").Plans(rules, "2026-07-20T12:00:00Z").Current!;
        Assert.Equal(Cow.Day(start), plan.Start);
        Assert.True(plan.Steps[^1].Day - Cow.Day(calved) >= 80);
        Assert.All(plan.Steps, s => Assert.Equal(ReproLink.Calendar.Resynchronisation.StepState.Firm, s.State));
    }

    [Fact]
    public void First_service_ends_with_the_service_and_its_insemination_is_ticked()
    {
        var rules = FirstService("ovsynch-56", 60);
        var plans = Cow.Of("card parity 1", "2026-06-01 calving", "2026-08-03 07:30 insemination").Plans(rules, "2026-08-04T12:00:00Z");
        var first = Assert.Single(plans.Earlier);
        Assert.Equal("inseminate 2026-08-03 07:00 done", PlanText.Lines(first)[3]);
        Assert.Equal(Cow.Day("2026-08-03"), plans.Current!.AnchorDay);
    }

    [Fact]
    public void A_heifer_follows_the_protocol_of_heifers_and_none_means_no_plan()
    {
        var heifer = Cow.Of("card parity 0", "2026-09-10 insemination");
        Assert.Null(heifer.Plans(SavedProgrammes.Approved(), "2026-10-01T12:00:00Z").Current);
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("cosynch-5d-insert-dairy-heifer"));
        Assert.Equal(
            ["insert-in 2026-10-05 07:00 firm", "gnrh-1 2026-10-05 07:00 firm", "insert-out 2026-10-10 07:00 firm", "pgf-1 2026-10-10 07:00 conditional not-open",
             "pgf-2 2026-10-11 07:00 conditional not-open", "gnrh-2 2026-10-13 07:00 conditional not-open", "inseminate 2026-10-13 07:00 conditional not-open"],
            heifer.Plan(rules, "2026-10-01T12:00:00Z"));
    }

    private static HerdRules Sampling(params ImmutableArray<IsoDayOfWeek> days) => SavedProgrammes.Approved(p => p with { Week = p.Week with { SamplingDays = days } });

    // Drawn on Thursdays; so many weeks pass until the answer.
    private static HerdRules Slow(int weeks) => SavedProgrammes.Approved(p => p with
    {
        Week = p.Week with { SamplingDays = [IsoDayOfWeek.Thursday] },
        Laboratory = p.Laboratory with { TransitDays = (7 * (weeks - 1)) + 1 },
    });

    private static HerdRules Two(Func<Programme, Programme> first, Func<Programme, Programme> second, string from)
    {
        var vet = new Approval("vet", SavedProgrammes.Saved, null);
        return new HerdRules(DateTimeZoneProviders.Tzdb["America/Chicago"], [SavedProgrammes.Version(1, "2020-01-01", first, vet), SavedProgrammes.Version(2, from, second, vet)]);
    }

    private static HerdRules FirstService(string protocol, int waiting) => SavedProgrammes.Approved(p => p with
    {
        FirstService = new FirstServiceChoice(waiting, protocol, [protocol == "ovsynch-56" ? IsoDayOfWeek.Friday : IsoDayOfWeek.Friday]),
    });
}
