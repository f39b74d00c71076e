using System.Globalization;

namespace ReproLink.TestSupport.DemoHerd;

/// <summary>Cows whose lives run as they should: fresh, served, awaiting a test, open and served again, pregnant, dry.</summary>
internal static class OrdinaryCows
{
    private const int Cows = 285;
    private const int DaysToTheVisit = 5;
    private const int LongAgo = -60;
    private static readonly string[] Sires = ["Arden", "Birch", "Corrie", "Dunmore", "Elder", "Fenwick"];

    public static void Write(HerdBook book, Chance chance)
    {
        var tested = new List<(string Animal, int Offset, string Outcome)>();
        for (var i = 0; i < Cows; i++)
        {
            new Life(book, chance, (2001 + i).ToString(CultureInfo.InvariantCulture), tested).Write(i);
        }

        LookAgain(book, tested);
    }

    // Every third first test of long ago was looked at again by the veterinarian some days later: what the blood said can be
    // held against what she saw. Written last, so that the numbers of everything before stay what they are.
    private static void LookAgain(HerdBook book, List<(string Animal, int Offset, string Outcome)> tested)
    {
        foreach (var (animal, offset, outcome) in tested.Where((t, i) => i % 3 == 0 && t.Offset < LongAgo))
        {
            book.Examined(animal, offset + DaysToTheVisit, outcome);
        }
    }

    private sealed class Life(HerdBook book, Chance chance, string animal, List<(string Animal, int Offset, string Outcome)> tested)
    {
        private int _parity;
        private int _served;
        private string _pen = "";

        public void Write(int number)
        {
            // Starting days are spread evenly over a calving interval, so every stage is there in its share.
            var calving = -430 - (number * 397 / Cows) - chance.Between(0, 3);
            var facts = new List<Action>();
            var parity = chance.Of(1, 1, 1, 2, 2, 3, 4);
            var born = calving - (720 + ((parity - 1) * 390)) - chance.Between(0, 40);
            _parity = parity - 1;
            while (calving <= 0)
            {
                calving = Lactation(facts, calving) ?? 1;
            }

            book.Card(animal, _parity, _pen, born, chance.In(8) ? "Jersey" : chance.In(6) ? "Brown Swiss" : "Holstein");
            foreach (var write in facts)
            {
                write();
            }
        }

        // One lactation; gives the next calving, or null when she has left or is still in this one.
        private int? Lactation(List<Action> facts, int calving)
        {
            _parity++;
            _served = 0;
            _pen = "fresh";
            Add(facts, calving, d => book.Fact("calving", animal, d));
            var service = calving + chance.Between(64, 84);
            while (service <= 0)
            {
                _pen = _parity == 1 ? "1" : chance.Of("2", "3", "4");
                Serve(facts, service);
                if (_served >= 6)
                {
                    return Culled(facts, service + 50, "served six times");
                }

                if (chance.In(41))
                {
                    return Carry(facts, service);
                }

                service = ServedAgain(facts, service);
            }

            return null;
        }

        private void Serve(List<Action> facts, int service)
        {
            var sire = chance.Of(Sires);
            var beef = chance.In(20);
            var time = chance.Of("06:40", "07:10", "08:00", "16:20");
            _served++;
            Add(facts, service, d => book.Fact("insemination", animal, d,
                ("time", d == 0 ? "" : time), ("sire", sire), ("sireBreed", beef ? "Angus" : "Holstein"), ("technician", "Mia")));
        }

        // A third are seen in heat three weeks on; the rest are found by their blood.
        private int ServedAgain(List<Action> facts, int service)
        {
            if (chance.In(33))
            {
                return service + chance.Between(19, 23);
            }

            Tested(facts, service + 32, "open");
            tested.Add((animal, service + 32, "open"));
            return service + chance.Between(41, 45);
        }

        private int? Carry(List<Action> facts, int service)
        {
            Tested(facts, service + 32, "pregnant");
            tested.Add((animal, service + 32, "pregnant"));
            if (chance.In(5) && service + 77 < 0)
            {
                return Lost(facts, service);
            }

            Tested(facts, service + 77, "pregnant");
            Tested(facts, service + 203, "pregnant");
            Add(facts, service + 220, d => book.Fact("dry-off", animal, d));
            _pen = service + 220 <= 0 ? "dry" : _pen;
            return service + 279 + chance.Between(-5, 5);
        }

        // A late loss, found by the veterinarian; she milks on and is then sold.
        private int? Lost(List<Action> facts, int service)
        {
            Add(facts, service + 52, d => book.Fact("loss", animal, d, ("examined", "true")));
            return Culled(facts, service + 75, "lost a calf and low milk");
        }

        private int? Culled(List<Action> facts, int decided, string reason)
        {
            Add(facts, decided, d => book.Fact("do-not-breed", animal, d, ("reason", reason)));
            Add(facts, decided + chance.Between(90, 150), d => book.Fact("departure", animal, d, ("reason", "sold")));
            return null;
        }

        private void Tested(List<Action> facts, int offset, string outcome)
        {
            switch (offset)
            {
                case <= -2:
                    facts.Add(() => book.Sample(animal, offset));
                    facts.Add(() => book.Test(animal, offset, outcome));
                    break;
                case <= 0:
                    // Drawn, and the laboratory has not answered.
                    facts.Add(() => book.Sample(animal, offset));
                    break;
            }
        }

        private static void Add(List<Action> facts, int offset, Action<int> write)
        {
            if (offset <= 0)
            {
                facts.Add(() => write(offset));
            }
        }
    }
}
