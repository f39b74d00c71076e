using System.Globalization;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Benchmarks.Herds;

/// <summary>An invented herd with years behind it: calvings, services, tests and confirmations, lactation after lactation.</summary>
internal static class LongHerd
{
    public static AnimalHistory History(int animal, Day today, int years)
    {
        var dice = new Dice((ulong)animal + 77);
        var facts = new List<Fact>();
        var calved = today - (years * 365) - dice.Between(0, 200);
        facts.Add(new AnimalCard(calved - 760) { Born = calved - 760, Breed = "Holstein", Pen = (1 + (animal % 12)).ToString(CultureInfo.InvariantCulture) });
        while (calved <= today)
        {
            facts.Add(new Calving(calved));
            calved = Lactation(facts, ref dice, calved) + dice.Between(275, 283);
        }

        var number = 0;
        return AnimalHistory.Of(MadeHerd.NameOf(animal), facts.Where(f => f.Day <= today).Select(f => f with
        {
            Source = MadeHerd.Source,
            SourceId = $"{animal}-{number:00}",
            Id = new FactId(((long)animal * 1024) + number++),
            Recorded = NodaConstants.UnixEpoch + Duration.FromDays(f.Day.Number),
        }));
    }

    // Served until she conceives; gives that service.
    private static Day Lactation(List<Fact> facts, ref Dice dice, Day calved)
    {
        var served = calved + dice.Between(62, 85);
        for (var number = 1; ; number++)
        {
            facts.Add(new Insemination(served) { Sire = $"B{dice.Below(20)}", SireBreed = "Holstein", Technician = $"T{dice.Below(3)}" });
            if (number < 8 && dice.Percent(20))
            {
                served += dice.Between(19, 24);
                continue;
            }

            var pregnant = number >= 8 || dice.Percent(42);
            facts.Add(new TestResult(served + 32, TestMethod.Blood, pregnant ? Outcome.Pregnant : Outcome.Open));
            if (pregnant)
            {
                facts.Add(new TestResult(served + 77, TestMethod.Blood, Outcome.Pregnant));
                facts.Add(new TestResult(served + 203, TestMethod.Blood, Outcome.Pregnant));
                facts.Add(new DryOff(served + 220));
                return served;
            }

            served += 32 + dice.Between(6, 14);
        }
    }
}
