using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Benchmarks.Herds;

/// <summary>A fact without anything but what a fold needs: the yardstick of the fold.</summary>
internal readonly record struct BareEvent(int Animal, int Day, byte Kind, byte Outcome)
{
    public static BareEvent Of(int animal, Fact fact) =>
        new(animal, fact.Day.Number, (byte)fact.Kind, fact is TestResult { Outcome: { } outcome } ? (byte)outcome : (byte)0);

    public static BareEvent[] OfHerd(int animals, Day today)
    {
        var events = new BareEvent[animals * MadeHerd.FactsAnAnimal];
        for (var animal = 0; animal < animals; animal++)
        {
            var facts = MadeHerd.History(animal, today).Facts;
            for (var i = 0; i < facts.Count; i++)
            {
                events[(animal * MadeHerd.FactsAnAnimal) + i] = Of(animal, facts[i]);
            }
        }

        return events;
    }
}
