using CsCheck;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Tests.Laws;
using ReproLink.Calendar.Tests.Resynchronisation;
using ReproLink.Calendar.WorkCalendar;

namespace ReproLink.Calendar.Tests.WorkCalendar;

/// <summary>Laws of the whole calendar over random animals.</summary>
public sealed class WorkCalendarLawTests
{
    [Fact]
    public void No_two_lines_share_an_id() =>
        PlanHerds.One.Holds(
            one =>
            {
                var twice = Items(one, one.History).GroupBy(i => i.Id).FirstOrDefault(g => g.Count() > 1);
                Assert.True(twice is null, string.Join(" / ", twice?.Select(i => $"{i.Date} {i.Kind} {i.Step} {i.State} {i.Plan}") ?? []));
            },
            cases: 1_500);

    [Fact]
    public void Order_and_repetition_of_the_herd_s_reading_and_other_animals_change_no_line_of_hers() =>
        Gen.Select(PlanHerds.One, PlanHerds.One).Holds(
            (one, other) =>
            {
                var stranger = other.History with { Animal = "stranger" };
                var alone = Lines(Items(one, one.History), "1042");
                Assert.Equal(alone, Lines(Items(one, stranger, one.History), "1042"));
                Assert.Equal(alone, Lines(Items(one, AnimalHistory.Of("1042", one.History.Facts.Reverse(), one.History.Held), stranger), "1042"));
            },
            cases: 400);

    [Fact]
    public void On_the_day_itself_no_step_is_conditional_and_no_dose_of_a_held_one_is_counted() =>
        PlanHerds.One.Holds(
            one =>
            {
                var schedule = Make(one, one.History);
                Assert.DoesNotContain(schedule.Items, i => i.State == StepState.Conditional && i.Date <= one.AsOf);
                foreach (var day in schedule.Totals)
                {
                    var open = schedule.Items.Count(i => i.Date == day.Date && i.Kind == WorkKind.Step && i.Step == StepKind.Pgf && i.State is StepState.Firm or StepState.Conditional);
                    Assert.True(day.Doses.GetValueOrDefault(StepKind.Pgf) <= open);
                }
            },
            cases: 800);

    private static IReadOnlyList<WorkItem> Items(PlanCase one, params AnimalHistory[] herd) => Make(one, herd).Items;

    private static WorkSchedule Make(PlanCase one, params AnimalHistory[] herd) => WorkCalendars.Make(
        [.. herd.Select(h => HistoryFold.Fold(h, one.Rules, one.AsOf, one.KnownAt))],
        one.Rules,
        new WorkQuery(one.AsOf - 200, one.AsOf + 60) { IncludeCancelled = true },
        one.AsOf,
        one.KnownAt);

    private static List<string> Lines(IReadOnlyList<WorkItem> items, string animal) =>
        items.Where(i => i.Animal?.Animal == animal).Select(i => $"{i.Id} {i.Date} {i.Time} {i.Kind} {i.Step} {i.State} {i.Clause}").ToList();
}
