using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;
using ReproLink.TestSupport.Plans;

namespace ReproLink.Calendar.Tests.Resynchronisation;

/// <summary>What is recorded, late, missed, wrong: rules S3, S7, S8, T7.</summary>
public sealed class ToleranceTests
{
    private const string After = "2026-10-16T12:00:00Z";
    private static readonly HerdRules Assumed = SavedProgrammes.Approved();
    private static readonly HerdRules Recorded = SavedProgrammes.Approved(p => p with { Recording = Recording.Recorded });

    // Open by Friday: GnRH on the 5th, prostaglandin on the 12th at 7, GnRH on the 14th at 15, insemination on the 15th at 7.
    private static readonly Cow Open = Cow.Of("card parity 1", "2026-05-01 calving", "2026-09-10 insemination", "2026-10-08 blood open reported 2026-10-09T22:00:00Z");

    [Theory]
    [InlineData("2026-10-11 06:59", false)]
    [InlineData("2026-10-11 07:00", true)]
    [InlineData("2026-10-12 07:00", true)]
    [InlineData("2026-10-13 07:00", true)]
    [InlineData("2026-10-13 07:01", false)]
    [InlineData("2026-10-12", true)]
    public void A_recorded_prostaglandin_ticks_its_step_within_24_hours_either_way(string given, bool ticks)
    {
        var plans = Open.With("2026-10-05 07:00 treatment gnrh", $"{given} treatment pgf").Plans(Recorded, "2026-10-13T13:00:00Z");
        var plan = ticks ? plans.Current : Assert.Single(plans.Earlier);
        Assert.EndsWith(ticks ? "done" : "missed", PlanText.Lines(plan)[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Planned_times_stay_while_every_interval_is_within_tolerance_and_hang_on_the_record_otherwise()
    {
        // 8 hours late: 56 h from then is 23:00, the planned 15:00 is 8 h early and stays. 9 hours late: it moves.
        Assert.Equal("gnrh-2 2026-10-14 15:00 firm", Open.With("2026-10-12 15:00 treatment pgf").Plan(Assumed, "2026-10-12T22:00:00Z")[2]);
        var moved = Open.With("2026-10-12 16:00 treatment pgf").Plan(Assumed, "2026-10-12T22:00:00Z");
        Assert.Equal(["gnrh-2 2026-10-15 00:00 firm off-hours", "inseminate 2026-10-15 16:00 firm"], moved.Skip(2));
    }

    [Fact]
    public void Assumed_steps_count_as_done_and_the_insemination_never_does()
    {
        Assert.Equal(
            ["gnrh-1 2026-10-05 07:00 done assumed", "pgf-1 2026-10-12 07:00 done assumed", "gnrh-2 2026-10-14 15:00 done assumed", "inseminate 2026-10-15 07:00 missed"],
            PlanText.Lines(Assert.Single(Open.Plans(Assumed, After).Earlier)));
        Assert.Equal("gnrh-1 2026-10-19 07:00 firm", Open.Plan(Assumed, After)[0]);
    }

    [Fact]
    public void Where_everything_is_recorded_an_unrecorded_step_is_missed_and_the_plan_starts_again()
    {
        var plans = Open.Plans(Recorded, "2026-10-13T12:00:00Z");
        Assert.Equal(["gnrh-1 2026-10-05 07:00 missed"], PlanText.Lines(Assert.Single(plans.Earlier)));
        Assert.Equal((Cow.Day("2026-10-12"), 1), (plans.Current!.Start, plans.Current.Restarts));
    }

    [Fact]
    public void Reported_as_not_done_is_missed_at_once_and_done_later_within_tolerance_wins()
    {
        var not = Open.With("2026-10-12 07:00 treatment pgf not-done");
        Assert.Equal("pgf-1 2026-10-12 07:00 missed", PlanText.Lines(Assert.Single(not.Plans(Assumed, "2026-10-12T13:00:00Z").Earlier))[1]);
        Assert.Equal("pgf-1 2026-10-12 07:00 done", not.With("2026-10-13 06:00 treatment pgf").Plan(Assumed, "2026-10-13T13:00:00Z")[1]);
    }

    [Fact]
    public void A_restart_waits_while_she_is_in_recheck_and_comes_when_she_is_open()
    {
        var doubtful = Cow.Of("card parity 1", "2026-05-01 calving", "2026-09-10 insemination", "2026-10-08 blood recheck");
        Assert.Null(doubtful.Plans(Assumed, "2026-10-14T12:00:00Z").Current);
        Assert.Equal(Cow.Day("2026-10-19"), doubtful.With("2026-10-15 blood open reported 2026-10-16T22:00:00Z").Plans(Assumed, "2026-10-17T12:00:00Z").Current!.Start);
    }

    [Fact]
    public void A_restart_of_an_untested_cow_needs_a_draw_that_can_still_serve_it()
    {
        var untested = Cow.Of("card parity 1", "2026-05-01 calving", "2026-09-10 insemination");
        Assert.Equal(Cow.Day("2026-10-19"), untested.Plans(Assumed, "2026-10-14T12:00:00Z").Current!.Start);
        var unsampled = SavedProgrammes.Approved(p => p with
        {
            Week = p.Week with { SamplingDays = [NodaTime.IsoDayOfWeek.Thursday], ClosedDates = [.. Enumerable.Range(0, 60).Select(n => Cow.Day("2026-10-15") + (7 * n))] },
        });
        Assert.Null(untested.Plans(unsampled, "2026-12-01T12:00:00Z").Current);
    }

    [Fact]
    public void A_missed_optional_dose_is_skipped_and_the_plan_goes_on()
    {
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("ovsynch-56-2pgf") with { Recording = Recording.Recorded });
        var once = Open.With("2026-10-05 07:00 treatment gnrh", "2026-10-12 07:00 treatment pgf");
        Assert.Equal(["pgf-1 2026-10-12 07:00 done", "pgf-2 2026-10-13 07:00 missed", "gnrh-2 2026-10-14 15:00 firm"], once.Plan(rules, "2026-10-14T13:00:00Z").Skip(1).Take(3));
    }

    [Fact]
    public void One_record_on_the_second_dose_s_day_is_the_second_dose()
    {
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("ovsynch-56-2pgf"));
        var plan = Open.With("2026-10-13 07:00 treatment pgf").Plan(rules, "2026-10-13T18:00:00Z");
        Assert.Equal(["pgf-1 2026-10-12 07:00 done assumed", "pgf-2 2026-10-13 07:00 done", "gnrh-2 2026-10-14 15:00 firm"], plan.Skip(1).Take(3));
    }

    [Fact]
    public void Two_doses_both_20_hours_late_are_the_first_and_the_second()
    {
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("ovsynch-56-2pgf"));
        var plan = Open.With("2026-10-13 03:00 treatment pgf", "2026-10-14 03:00 treatment pgf").Plan(rules, "2026-10-14T13:00:00Z");
        Assert.Equal(["pgf-1 2026-10-12 07:00 done", "pgf-2 2026-10-14 03:00 done off-hours"], plan.Skip(1).Take(2));
    }

    [Fact]
    public void A_wrong_agent_leaves_the_step_unrecorded_and_not_assumed()
    {
        var wrong = Open.With("2026-10-12 07:00 treatment gnrh");
        Assert.Equal("pgf-1 2026-10-12 07:00 firm wrong-agent", wrong.Plan(Assumed, "2026-10-13T11:00:00Z")[1]);
        Assert.Equal("pgf-1 2026-10-12 07:00 missed wrong-agent", PlanText.Lines(Assert.Single(wrong.Plans(Assumed, "2026-10-13T13:00:00Z").Earlier))[1]);
    }

    [Theory]
    [InlineData("2026-10-12", "firm")]
    [InlineData("2026-10-11", "awaiting awaiting-approval")]
    public void Approval_holds_on_its_last_day(string expires, string state)
    {
        var rules = SavedProgrammes.Of(null, "America/Chicago", new Approval("vet", SavedProgrammes.Saved, Cow.Day(expires)));
        Assert.Equal($"pgf-1 2026-10-12 07:00 {state}", Open.Plan(rules, "2026-10-10T12:00:00Z")[1]);
    }

    [Fact]
    public void What_was_not_approved_at_its_time_was_not_done()
    {
        var later = SavedProgrammes.Of(null, "America/Chicago", new Approval("vet", NodaTime.Instant.FromUtc(2026, 10, 12, 12, 1), null));
        // The GnRH of the 5th was never released: it was missed, and she starts again.
        Assert.Equal(["gnrh-1 2026-10-05 07:00 missed"], PlanText.Lines(Open.Plans(later, "2026-10-13T12:00:00Z").Earlier[0]));
    }

    [Fact]
    public void A_result_held_today_does_not_undo_what_was_done_last_week()
    {
        var held = new Facts.HeldNotice("h_1", NodaTime.Instant.FromUtc(2026, 10, 13, 18, 0), "unknown-tube");
        var now = NodaTime.Instant.FromUtc(2026, 10, 13, 20, 0);
        var state = Status.HistoryFold.Fold(Facts.AnimalHistory.Of("1042", Open.Facts, [held]), Assumed, Cow.Day("2026-10-13"), now);
        var plan = Calendar.Resynchronisation.Planner.Of(state, Assumed, Cow.Day("2026-10-13"), now).Current;
        Assert.Equal(["pgf-1 2026-10-12 07:00 done assumed", "gnrh-2 2026-10-14 15:00 held held-result"], PlanText.Lines(plan).Skip(1).Take(2));
    }
}
