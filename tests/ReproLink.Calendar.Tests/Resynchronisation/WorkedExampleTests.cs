using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;
using ReproLink.TestSupport.Plans;

namespace ReproLink.Calendar.Tests.Resynchronisation;

/// <summary>The worked example of the API guide, animal 1042: from her plan before the test to every answer it can get.</summary>
public sealed class WorkedExampleTests
{
    private const string Asked = "2026-10-05T12:00:00Z";
    private static readonly HerdRules Rules = SavedProgrammes.Approved();

    private static readonly Cow Cow1042 = Cow.Of(
        "card born 2022-03-01 breed Holstein parity 1 pen 4",
        "2026-07-01 calving",
        "2026-09-10 08:00 insemination sire-breed Angus");

    [Fact]
    public void Before_the_test_gnrh_is_firm_and_everything_behind_the_gate_conditional()
    {
        Assert.Equal(
            ["gnrh-1 2026-10-05 07:00 firm",
             "pgf-1 2026-10-12 07:00 conditional not-open",
             "gnrh-2 2026-10-14 15:00 conditional not-open",
             "inseminate 2026-10-15 07:00 conditional not-open"],
            Cow1042.Plan(Rules, Asked));
        Assert.Equal(GateClause.NotOpen, Gate.Closed(Cow1042.On(Cow.Day("2026-10-05"), Rules)));
    }

    [Fact]
    public void Open_known_on_Friday_makes_the_prostaglandin_of_Monday_firm() => Assert.Equal(
        ["gnrh-1 2026-10-05 07:00 done assumed",
         "pgf-1 2026-10-12 07:00 firm",
         "gnrh-2 2026-10-14 15:00 firm",
         "inseminate 2026-10-15 07:00 firm"],
        Answered("open").Plan(Rules, "2026-10-10T12:00:00Z"));

    [Fact]
    public void Before_the_result_is_reported_nothing_is_firm() =>
        Assert.Equal("pgf-1 2026-10-12 07:00 conditional not-open", Answered("open").With("2026-10-08 06:30 sample").Plan(Rules, "2026-10-09T21:59:00Z")[1]);

    [Fact]
    public void Pregnant_cancels_what_is_ahead() => Assert.Equal(
        ["gnrh-1 2026-10-05 07:00 done assumed",
         "pgf-1 2026-10-12 07:00 cancelled",
         "gnrh-2 2026-10-14 15:00 cancelled",
         "inseminate 2026-10-15 07:00 cancelled"],
        Answered("pregnant").Plan(Rules, "2026-10-10T12:00:00Z"));

    [Fact]
    public void Recheck_holds_the_prostaglandin() => Assert.Equal(
        ["gnrh-1 2026-10-05 07:00 done assumed",
         "pgf-1 2026-10-12 07:00 held recheck",
         "gnrh-2 2026-10-14 15:00 held recheck",
         "inseminate 2026-10-15 07:00 held recheck"],
        Answered("recheck").Plan(Rules, "2026-10-10T12:00:00Z"));

    [Fact]
    public void Without_approval_every_drug_step_awaits_it()
    {
        var unapproved = SavedProgrammes.Of(null, "America/Chicago");
        Assert.Equal(
            ["gnrh-1 2026-10-05 07:00 awaiting awaiting-approval",
             "pgf-1 2026-10-12 07:00 awaiting awaiting-approval",
             "gnrh-2 2026-10-14 15:00 awaiting awaiting-approval",
             "inseminate 2026-10-15 07:00 awaiting awaiting-approval"],
            Cow1042.Plan(unapproved, Asked));
    }

    [Fact]
    public void Without_a_result_the_prostaglandin_is_held_from_the_last_draw_on_and_on_its_day()
    {
        string Pgf(string knownAt) => Cow1042.Plan(Rules, knownAt)[1];

        Assert.Equal("pgf-1 2026-10-12 07:00 conditional not-open", Pgf("2026-10-08T12:00:00Z"));
        Assert.Equal("pgf-1 2026-10-12 07:00 held no-result-in-time", Pgf("2026-10-09T12:00:00Z"));
        Assert.Equal("pgf-1 2026-10-12 07:00 held no-result-in-time", Pgf("2026-10-12T06:00:00Z"));
        Assert.Equal("pgf-1 2026-10-12 07:00 held no-result-in-time", Pgf("2026-10-13T11:59:00Z"));
    }

    [Fact]
    public void A_drawn_sample_keeps_it_conditional_until_its_report_is_due()
    {
        var drawn = Cow1042.With("2026-10-08 06:30 sample");
        string Pgf(string knownAt) => drawn.Plan(Rules, knownAt)[1];

        Assert.Equal("pgf-1 2026-10-12 07:00 conditional not-open", Pgf("2026-10-09T22:00:00Z"));
        Assert.Equal("pgf-1 2026-10-12 07:00 held no-result-in-time", Pgf("2026-10-09T22:01:00Z"));
    }

    [Fact]
    public void On_the_day_itself_a_late_open_makes_it_firm_but_never_assumed_done()
    {
        var late = Cow1042.With("2026-10-08 blood open reported 2026-10-12T16:00:00Z");

        Assert.Equal("pgf-1 2026-10-12 07:00 held no-result-in-time", late.Plan(Rules, "2026-10-12T15:59:00Z")[1]);
        Assert.Equal("pgf-1 2026-10-12 07:00 firm", late.Plan(Rules, "2026-10-12T16:00:00Z")[1]);
        Assert.Equal("pgf-1 2026-10-12 07:00 firm", late.Plan(Rules, "2026-10-13T12:00:00Z")[1]);
        // Past the tolerance it lapsed: she starts anew on the next Monday.
        Assert.Equal("gnrh-1 2026-10-19 07:00 firm", late.Plan(Rules, "2026-10-13T12:01:00Z")[0]);
    }

    [Fact]
    public void Service_on_oestrus_starts_anew_from_the_new_day_0_and_cancels_the_old_steps()
    {
        var again = Cow1042.With("2026-10-07 16:00 insemination");
        var plans = again.Plans(Rules, "2026-10-08T12:00:00Z");

        var old = Assert.Single(plans.Earlier);
        Assert.Equal(
            ["gnrh-1 2026-10-05 07:00 done assumed",
             "pgf-1 2026-10-12 07:00 cancelled",
             "gnrh-2 2026-10-14 15:00 cancelled",
             "inseminate 2026-10-15 07:00 cancelled"],
            PlanText.Lines(old));
        Assert.Equal(Cow.Day("2026-10-07"), plans.Current!.AnchorDay);
        // Day 25 is Sunday 1 November: Monday the 2nd, one draw day left (Thursday the 5th, day 29).
        Assert.Equal(
            ["gnrh-1 2026-11-02 07:00 firm",
             "pgf-1 2026-11-09 07:00 conditional not-open",
             "gnrh-2 2026-11-11 15:00 conditional not-open",
             "inseminate 2026-11-12 07:00 conditional not-open"],
            PlanText.Lines(plans.Current));
    }

    [Fact]
    public void The_protocol_insemination_ticks_its_own_step()
    {
        var bred = Answered("open").With("2026-10-15 08:00 insemination");
        var old = Assert.Single(bred.Plans(Rules, "2026-10-16T12:00:00Z").Earlier);

        Assert.Equal("inseminate 2026-10-15 07:00 done", PlanText.Lines(old)[3]);
    }

    private static Cow Answered(string outcome) => Cow1042.With($"2026-10-08 blood {outcome} reported 2026-10-09T22:00:00Z");
}
