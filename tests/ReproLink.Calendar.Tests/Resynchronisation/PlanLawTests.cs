using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Tests.Laws;
using ReproLink.TestSupport.Plans;

namespace ReproLink.Calendar.Tests.Resynchronisation;

/// <summary>What must hold of every plan, over random animals.</summary>
public sealed class PlanLawTests
{
    [Fact]
    public void A_gated_step_is_taken_as_done_only_where_the_raw_facts_known_before_it_said_not_pregnant() =>
        PlanHerds.One.Holds(
            one =>
            {
                foreach (var step in All(Plans(one, one.AsOf)).SelectMany(p => p.Steps).Where(s => s is { Assumed: true, Step.Gated: true }))
                {
                    var at = StepTimes.Resolve(step.At, one.Rules.Zone);
                    var before = one.Animal.Facts.Where(f => IsBefore(f, step, at)).ToList();
                    Assert.False(SafetyLaw.IsPossiblyPregnant(one, before, step.Day), PlanText.Line(step));
                }
            },
            cases: 4_000);

    [Fact]
    public void An_insert_on_record_has_to_come_out_until_it_is_recorded_out_or_she_calves_or_leaves() =>
        PlanHerds.One.Holds(
            one =>
            {
                for (var day = one.AsOf - 20; day < one.AsOf; day += 1)
                {
                    if (Plans(one, day).Insert is { } insert && Plans(one, day + 1).Insert is null)
                    {
                        var placed = Day.From(insert.PlacedAt.Date);
                        var ended = one.History.Facts.Any(f => f.Day >= placed && f.Day <= day + 1
                            && f is Calving or Departure or Treatment { Agent: Agent.InsertOut, NotDone: false });
                        // One only assumed in goes with the plan that asked for it; time alone never takes it away.
                        var news = insert.PlacedBy is null && one.History.Facts.Any(f => f.Day == day + 1 || Told(f) is { } told && one.Rules.DayOf(told) == day + 1);
                        Assert.True(ended || news, $"{PlanText.Line(insert)} is gone on {day + 1}");
                    }
                }
            },
            cases: 1_500);

    [Fact]
    public void The_order_of_posting_is_irrelevant() =>
        PlanHerds.One.Holds(
            one =>
            {
                var shuffled = one with { Animal = one.Animal with { Facts = [.. one.Animal.Facts.OrderBy(f => (f.Id.Value * 7919) % 1009)] } };
                Assert.Equal(Text(one), Text(shuffled));
            },
            cases: 1_000);

    [Fact]
    public void Insert_out_is_never_gated_held_or_awaiting_once_the_insert_is_due() =>
        PlanHerds.One.Holds(
            one =>
            {
                var plans = Plans(one, one.AsOf);
                foreach (var plan in All(plans))
                {
                    foreach (var step in plan.Steps.Where(s => s.Step.Kind == StepKind.InsertOut && s.Day <= one.AsOf))
                        Assert.True(step.State is StepState.Firm or StepState.Done or StepState.Cancelled, PlanText.Line(step));
                }
            },
            cases: 1_500);

    private static Instant? Told(Fact fact) => fact is TestResult result ? result.Known : (fact as Examination)?.Known;

    private static bool IsBefore(Fact fact, PlannedStep step, Instant at) =>
        (fact.Day < step.Day || (fact.Day == step.Day && !(fact.Time >= step.At.TimeOfDay)))
        && (fact is not TestResult result || result.Known < at)
        && (fact is not Examination { Known: { } known } || known < at);

    private static AnimalPlans Plans(PlanCase one, Day asOf) =>
        Planner.Of(HistoryFold.Fold(one.History, one.Rules, asOf, one.KnownAt), one.Rules, asOf, one.KnownAt);

    private static IEnumerable<StepPlan> All(AnimalPlans plans) => plans.Earlier.Append(plans.Current).OfType<StepPlan>();

    private static string Text(PlanCase one)
    {
        var plans = Plans(one, one.AsOf);
        return string.Join('\n', All(plans).SelectMany(PlanText.Lines).Append(PlanText.Line(plans.Insert)));
    }
}
