using CsCheck;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Calendar.Tests.Generators;
using ReproLink.Calendar.Tests.Oracle;

namespace ReproLink.Calendar.Tests.Laws;

/// <summary>Laws 1, 2 and 8, and B4, over random herds.</summary>
public sealed class ListLaws
{
    [Fact]
    public void Law_1_nobody_is_listed_before_a_bound_that_applies() => RandomAnimals.Herd.Holds(herd =>
    {
        foreach (var day in Folded.Week(herd).Days)
        {
            foreach (var line in day.Animals)
            {
                Assert.True(herd.Rules.IsSamplingDay(day.Date));
                var facts = herd.Animals.Single(a => a.Animal == line.State.Animal).Facts;
                Assert.Equal("eligible", new NaiveWindow(facts, herd.Rules, herd.AsOf, herd.KnownAt).Answer(day.Date)?.Answer);
                AssertFloors(line, day.Date);
            }
        }
    }, cases: 1_500);

    [Fact]
    public void Law_2_every_animal_appears_exactly_once() => RandomAnimals.Herd.Holds(herd =>
    {
        var list = Folded.Week(herd);
        var shown = list.Days.SelectMany(d => d.Animals).Select(l => l.State.Animal)
            .Concat(list.NotListed.SelectMany(r => r.Animals).Select(a => a.Animal)).Order(StringComparer.Ordinal);
        var herdOf = herd.Animals.Select(a => Folded.State(a, herd)).Where(s => s.Exists && s.Status != AnimalStatus.Left)
            .Select(s => s.Animal).Order(StringComparer.Ordinal);
        Assert.Equal(herdOf, shown);
    }, cases: 1_500);

    [Fact]
    public void Law_8_a_fact_about_one_animal_changes_no_other_animals_lines() =>
        Gen.Select(RandomAnimals.Herd, RandomAnimals.Named("2000")).Holds((herd, other) =>
        {
            var facts = other.Facts.Select(f => f with { Id = new FactId(f.Id.Value + (1L << 40)) }).ToArray();
            var before = Folded.Week(herd);
            var after = Folded.Week(herd with { Animals = [.. herd.Animals, new RandomAnimal("2000", facts)] });
            foreach (var animal in herd.Animals)
                Assert.Equal(Folded.LinesOf(before, animal.Animal), Folded.LinesOf(after, animal.Animal));
        }, cases: 800);

    [Fact]
    public void The_daily_limit_is_kept_and_loses_nobody() => RandomAnimals.Herd.Holds(herd =>
    {
        var limited = new HerdRules(herd.Rules.Zone, herd.Rules.Versions.Select(v => v with
        {
            Programme = v.Programme with { Week = v.Programme.Week with { MaxTubesPerDay = 2 } },
        }));
        var list = Folded.Week(herd with { Rules = limited });
        Assert.All(list.Days, d => Assert.InRange(d.Count, 1, 2));
        Assert.Equal(
            herd.Animals.Select(a => Folded.State(a, herd)).Count(s => s.Exists && s.Status != AnimalStatus.Left),
            list.Days.Sum(d => d.Count) + list.NotListed.Sum(r => r.Animals.Count));
    }, cases: 800);

    // The floors as plain numbers: nothing she was served by since the calving is younger than 28 days, she calved 60 days ago
    // and every loss is 14 days old. Confirmed pregnancies are past them by their own service.
    private static void AssertFloors(BleedLine line, Day day)
    {
        var state = line.State;
        Assert.True(state.DaysInMilk(day) is not < 60, $"{day}: {state.DaysInMilk(day)} days in milk");
        Assert.All(state.Losses, l => Assert.True(day - l.Fact.Day >= 14));
        if (state.Underneath is AnimalStatus.AwaitingTest or AnimalStatus.Recheck or AnimalStatus.Conflict)
        {
            Assert.All(state.Services.Where(s => s.FailedBy is null), s => Assert.True(day - s.DayZero >= 28));
            Assert.All(state.Exposures.Where(e => e.FailedBy is null), e => Assert.True(e.Last is { } last && day - last >= 28));
        }
    }
}
