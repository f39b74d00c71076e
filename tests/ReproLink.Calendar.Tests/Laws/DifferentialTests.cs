using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.Tests.Generators;
using ReproLink.Calendar.Tests.Oracle;

namespace ReproLink.Calendar.Tests.Laws;

/// <summary>The engine against the naive reference: status, answer, reason, need, overdue, opens, closes, changesOn.</summary>
public sealed class DifferentialTests
{
    private static readonly int[] DaysAhead = [0, 3, 17];

    [Fact]
    public void The_engine_and_the_naive_reference_give_the_same_answers() =>
        RandomAnimals.Single.Holds(SameAnswers, cases: 12_000);

    [Fact]
    public void The_same_holds_under_the_defaults_of_a_herd_without_a_programme()
    {
        var defaults = new HerdRules(DateTimeZone.Utc, []);
        RandomAnimals.Single.Holds(herd => SameAnswers(herd with { Rules = defaults }), cases: 12_000);
    }

    [Fact]
    public void The_engine_and_the_naive_reference_change_their_answers_on_the_same_day() =>
        RandomAnimals.Single.Holds(SameChange, cases: 400);

    private static void SameAnswers(RandomHerd herd)
    {
        var facts = herd.Animals[0].Facts;
        foreach (var ahead in DaysAhead)
        {
            var on = herd.AsOf + ahead;
            var expected = Comparison.Oracle(facts, herd.Rules, herd.AsOf, herd.KnownAt, on);
            Assert.Equal(expected, Comparison.Engine(facts, herd.Rules, herd.AsOf, herd.KnownAt, on));
        }
    }

    private static void SameChange(RandomHerd herd)
    {
        var facts = herd.Animals[0].Facts;
        var state = HistoryFold.Fold(AnimalHistory.Of("1042", facts.Where(f => f.Recorded <= herd.KnownAt)), herd.Rules, herd.AsOf, herd.KnownAt);
        var expected = new NaiveWindow(facts, herd.Rules, herd.AsOf, herd.KnownAt).ChangesOn(herd.AsOf);
        Assert.Equal(Near(expected, herd.AsOf), Near(TestWindows.Answer(state, herd.Rules, herd.AsOf).ChangesOn, herd.AsOf));
    }

    // The reference looks 800 days ahead.
    private static Day? Near(Day? change, Day from) => change is { } day && day - from <= 800 ? day : null;
}
