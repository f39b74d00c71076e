using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;
using ReproLink.TestSupport.Plans;

namespace ReproLink.Calendar.Tests.Resynchronisation;

/// <summary>An insert comes out whatever her status (rule S4).</summary>
public sealed class InsertTests
{
    private const string Assumed = "in 2026-10-05 07:00 assumed out 2026-10-12 07:00";
    private const string Recorded = "in 2026-10-05 07:00 recorded out 2026-10-12 07:00";
    private static readonly HerdRules Rules = SavedProgrammes.Approved(p => p.Resynchronised("p4-ovsynch-56"));

    private static readonly Cow Served = Cow.Of("card parity 1", "2026-05-01 calving", "2026-09-10 insemination");
    private static readonly Cow In = Served.With("2026-10-05 07:00 treatment gnrh", "2026-10-05 07:00 treatment insert-in");

    [Theory]
    [InlineData("2026-10-05T11:59:00Z", "none")]
    [InlineData("2026-10-05T12:00:00Z", Assumed)]
    [InlineData("2026-11-20T12:00:00Z", "listed")]
    public void It_is_to_come_out_from_the_moment_placing_it_was_due(string knownAt, string line)
    {
        var insert = PlanText.Line(Served.Plans(Rules, knownAt).Insert);
        if (line == "listed") Assert.NotEqual("none", insert);
        else Assert.Equal(line, insert);
    }

    [Theory]
    [InlineData("2026-10-08 blood pregnant", Recorded)]
    [InlineData("2026-10-08 blood recheck", Recorded)]
    [InlineData("2026-10-09 do-not-breed", Recorded)]
    [InlineData("2026-10-09 oestrus", Recorded)]
    [InlineData("2026-10-09 exposure", Recorded)]
    [InlineData("2026-10-09 natural-service", Recorded)]
    [InlineData("2026-10-09 12:00 insemination", Recorded)]
    [InlineData("2026-10-12 07:00 treatment insert-out not-done", Recorded)]
    [InlineData("2026-10-12 07:00 treatment insert-out", "none")]
    [InlineData("2026-10-09 treatment insert-out", "none")]
    [InlineData("2026-10-15 treatment insert-out", "none")]
    [InlineData("2026-10-10 departure", "none")]
    [InlineData("2026-10-10 calving", "none")]
    public void One_on_record_comes_out_until_recorded_out_calving_or_leaving(string fact, string line) =>
        Assert.Equal(line, PlanText.Line(In.With(fact).Plans(Rules, "2026-10-17T12:00:00Z").Insert));

    [Theory]
    [InlineData("2026-10-08 blood pregnant", Assumed)]
    [InlineData("2026-10-09 do-not-breed", Assumed)]
    [InlineData("2026-10-09 natural-service", Assumed)]
    [InlineData("2026-10-09 insemination", "none")]
    [InlineData("2026-10-05 07:00 treatment insert-in not-done", "none")]
    public void One_only_assumed_in_also_goes_with_a_later_insemination(string fact, string line) =>
        Assert.Equal(line, PlanText.Line(Served.With(fact).Plans(Rules, "2026-10-10T12:00:00Z").Insert));

    [Fact]
    public void It_stays_over_two_later_services()
    {
        var cow = In.With("2026-10-09 insemination", "2026-10-20 insemination", "2026-10-30 exposure");
        Assert.Equal(Recorded, PlanText.Line(cow.Plans(Rules, "2026-11-02T12:00:00Z").Insert));
    }

    [Fact]
    public void It_needs_no_approval_and_stays_when_the_plan_lapsed()
    {
        var unapproved = SavedProgrammes.Of(p => p.Resynchronised("p4-ovsynch-56"), "America/Chicago");
        Assert.Equal(Recorded, PlanText.Line(In.Plans(unapproved, "2026-10-10T12:00:00Z").Insert));
        Assert.Equal("insert-out 2026-10-12 07:00 firm", In.Plan(unapproved, "2026-10-10T12:00:00Z")[2]);
    }

    [Fact]
    public void Prostaglandin_of_the_same_pass_hangs_on_when_it_really_came_out()
    {
        var open = In.With("2026-10-08 blood open reported 2026-10-09T22:00:00Z", "2026-10-14 09:00 treatment insert-out");
        Assert.Equal(
            ["insert-out 2026-10-12 07:00 done", "pgf-1 2026-10-14 09:00 firm"],
            open.Plan(Rules, "2026-10-14T15:00:00Z").Skip(2).Take(2));
    }

    [Fact]
    public void Recorded_too_late_for_its_step_it_still_has_to_come_out()
    {
        var late = Served.With("2026-10-05 07:00 treatment gnrh", "2026-10-09 08:00 treatment insert-in");
        Assert.Equal("in 2026-10-09 08:00 recorded out 2026-10-16 08:00", PlanText.Line(late.Plans(Rules, "2026-10-10T12:00:00Z").Insert));
    }
}
