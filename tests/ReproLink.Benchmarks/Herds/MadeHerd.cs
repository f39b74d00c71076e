using System.Globalization;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Benchmarks.Herds;

/// <summary>An invented herd: every animal has twelve facts, a card, one whole lactation and one that is under way.</summary>
internal static class MadeHerd
{
    public const int FactsAnAnimal = 12;
    public const string Source = "herd-book";

    public static string NameOf(int animal) => (animal + 1).ToString(CultureInfo.InvariantCulture);

    public static AnimalHistory History(int animal, Day today) => AnimalHistory.Of(NameOf(animal), Facts(animal, today));

    /// <summary>The facts of an animal, none of them after today.</summary>
    public static Fact[] Facts(int animal, Day today)
    {
        var dice = new Dice((ulong)animal + 1);
        var calved = today - dice.Between(0, 340);
        var now = Lactation(ref dice, calved, today, FactsAnAnimal - 4);
        var before = Earlier(ref dice, calved, FactsAnAnimal - 1 - now.Count);
        var card = new AnimalCard(before[0].Day - 900) { Born = before[0].Day - 900, Breed = "Holstein", Parity = 2, Pen = (1 + (animal % 12)).ToString(CultureInfo.InvariantCulture) };
        Fact[] facts = [card, .. before, .. now];
        for (var i = 0; i < facts.Length; i++)
        {
            facts[i] = facts[i] with { Source = Source, SourceId = $"{animal}-{i:00}", Id = new FactId(((long)animal * 16) + i), Recorded = RecordedOn(facts[i].Day) };
        }

        return facts;
    }

    private static Instant RecordedOn(Day day) => NodaConstants.UnixEpoch + Duration.FromDays(day.Number);

    // Calving, then services with a test each until she is pregnant, as far as today.
    private static List<Fact> Lactation(ref Dice dice, Day calved, Day today, int most)
    {
        var facts = new List<Fact> { new Calving(calved) };
        var served = calved + dice.Between(62, 85);
        while (facts.Count + 3 <= most && served <= today)
        {
            facts.Add(new Insemination(served) { Sire = $"B{dice.Below(20)}", SireBreed = "Holstein" });
            var sampled = served + dice.Between(28, 36);
            if (sampled > today)
            {
                break;
            }

            // Some blood is drawn and its result is still on the way.
            if (dice.Percent(20))
            {
                facts.Add(new Sample(sampled) { Specimen = "serum" });
                if (sampled == today)
                {
                    break;
                }
            }

            var outcome = Outcome(ref dice);
            facts.Add(new TestResult(sampled, TestMethod.Blood, outcome));
            if (outcome != ReproLink.Calendar.Facts.Outcome.Open)
            {
                break;
            }

            served = sampled + dice.Between(3, 24);
        }

        return facts;
    }

    private static Outcome Outcome(ref Dice dice) =>
        dice.Below(100) switch { < 55 => ReproLink.Calendar.Facts.Outcome.Open, < 97 => ReproLink.Calendar.Facts.Outcome.Pregnant, _ => ReproLink.Calendar.Facts.Outcome.Recheck };

    // The lactation before, backwards from the calving that ended its pregnancy, with as many facts as are wanted.
    private static List<Fact> Earlier(ref Dice dice, Day calved, int count)
    {
        var served = calved - dice.Between(276, 284);
        var facts = new List<Fact> { new TestResult(served + 32, TestMethod.Blood, ReproLink.Calendar.Facts.Outcome.Pregnant), new Insemination(served) };
        while (facts.Count + 3 <= count)
        {
            served -= dice.Between(38, 60);
            facts.Add(new TestResult(served + 30, TestMethod.Blood, ReproLink.Calendar.Facts.Outcome.Open));
            facts.Add(new Insemination(served));
        }

        if (facts.Count + 2 <= count)
        {
            served -= 21;
            facts.Add(new Oestrus(served));
        }

        facts.Add(new Calving(served - dice.Between(65, 90)));
        facts.Reverse();
        return facts;
    }
}
