using CsCheck;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Tests.Generators;
using static ReproLink.Calendar.Tests.Laws.Folded;

namespace ReproLink.Calendar.Tests.Laws;

/// <summary>Laws 4, 5 and 6 at the engine's level, over random animals.</summary>
public sealed class FactLaws
{
    [Fact]
    public void Law_4_any_order_of_posting_gives_the_same_calendar() =>
        Gen.Select(RandomAnimals.Single, Gen.Int).Holds((herd, seed) =>
        {
            var animal = herd.Animals[0];
            var shuffled = animal.Facts.ToArray();
            new Random(seed).Shuffle(shuffled);
            Assert.Equal(Everything(animal, herd), Everything(animal with { Facts = shuffled }, herd));
        }, cases: 3_000);

    [Fact]
    public void Law_5_known_at_a_past_moment_is_what_was_answered_then() =>
        Gen.Select(RandomAnimals.Single, Gen.Int[-30, 60]).Holds((herd, days) =>
        {
            var animal = herd.Animals[0];
            var then = RandomAnimals.Recorded(herd.AsOf + days);
            var store = animal.Facts.Where(f => f.Recorded <= then && Known(f) <= then).ToList();
            var answeredThen = Everything(animal.Animal, store, herd.Rules, herd.AsOf, ReproLink.TestSupport.Histories.Cow.Later);
            Assert.Equal(answeredThen, Everything(animal.Animal, animal.Facts, herd.Rules, herd.AsOf, then));
        }, cases: 3_000);

    [Fact]
    public void Law_6_withdrawing_a_fact_equals_never_having_had_it() =>
        Gen.Select(RandomAnimals.Single, Gen.Int[0, 99]).Where((herd, _) => herd.Animals[0].Facts.Count > 0).Holds((herd, which) =>
        {
            var animal = herd.Animals[0];
            var without = animal with { Facts = [.. animal.Facts.Where((_, i) => i != which % animal.Facts.Count)] };
            var never = Everything(without, herd);
            _ = Everything(animal, herd);
            Assert.Equal(never, Everything(without, herd));
        }, cases: 1_500);

    [Fact]
    public void Facts_of_tomorrow_change_nothing_today() => RandomAnimals.Single.Holds(herd =>
    {
        var animal = herd.Animals[0];
        var past = animal with { Facts = [.. animal.Facts.Where(f => f.Day <= herd.AsOf)] };
        Assert.Equal(Everything(past, herd), Everything(animal, herd));
    }, cases: 3_000);

    private static NodaTime.Instant Known(Fact fact) => fact switch
    {
        TestResult result => result.Known,
        Examination { Known: { } known } => known,
        _ => fact.Recorded,
    };
}
