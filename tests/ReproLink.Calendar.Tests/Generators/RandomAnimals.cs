using CsCheck;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Tests.Generators;

/// <summary>One random animal: her facts in random order, each with its own (source, sourceId).</summary>
public sealed record RandomAnimal(string Animal, IReadOnlyList<Fact> Facts)
{
    public override string ToString() => Animal + "\n" + string.Join("\n", Facts.Order(FactOrder.Instance));
}

/// <summary>A random herd with the moment it is looked at.</summary>
public sealed record RandomHerd(Programmes.HerdRules Rules, IReadOnlyList<RandomAnimal> Animals, Day AsOf, Instant KnownAt)
{
    public override string ToString() =>
        $"asOf {AsOf} knownAt {KnownAt}\n{string.Join("\n", Rules.Versions)}\n{string.Join("\n", Animals)}";
}

/// <summary>
/// Random animals biased to the edges of the rules: each move is dated from something that already happened to her, by a
/// distance just before, on or just after the day on which a rule begins to hold.
/// </summary>
public static class RandomAnimals
{
    /// <summary>The first day of the random histories.</summary>
    public static readonly Day Start = Day.From(new LocalDate(2026, 1, 5));

    /// <summary>Days over which they run.</summary>
    public const int Span = 400;

    /// <summary>The usual moment of recording: late on the day, in UTC.</summary>
    public static Instant Recorded(Day day) => (day.Date + new LocalTime(20, 0)).InUtc().ToInstant();

    private static readonly Gen<Move> Moves = Gen.Select(
        Gen.Int[0, 99], Gen.Int[0, 99], Gen.Int[0, 99], Gen.Int[0, 99], Gen.Int,
        (what, when, how, late, order) => new Move(what, when, how, late, order));

    /// <summary>An animal of 0 to 14 facts besides her card.</summary>
    public static Gen<RandomAnimal> Named(string name) =>
        from opening in Gen.Int[0, 9]
        from moves in Moves.Array[0, 14]
        select new RandomAnimal(name, History.Of(name, opening, moves));

    /// <summary>An animal with any name.</summary>
    public static readonly Gen<RandomAnimal> One = Named("1042");

    /// <summary>A herd of 1 to 8, looked at on a random day with a knowledge of that day or another.</summary>
    public static readonly Gen<RandomHerd> Herd = HerdOf(1, 8);

    /// <summary>A herd of one: for laws about one animal; shrinks better.</summary>
    public static readonly Gen<RandomHerd> Single = HerdOf(1, 1);

    private static Gen<RandomHerd> HerdOf(int least, int most) =>
        from rules in RandomProgrammes.Rules
        from animals in One.Array[least, most]
        from fact in Gen.Int[0, 99]
        from after in Gen.Frequency((3, Gen.Int[0, 4]), (3, Gen.Int[5, 40]), (1, Gen.Int[41, 300]))
        let asOf = Near(animals, fact, after)
        from known in Gen.Frequency((4, Gen.Const(400)), (1, Gen.Int[-40, 5]))
        select new RandomHerd(
            rules,
            [.. animals.Select((a, i) => new RandomAnimal($"{1000 + i}", Renamed(a.Facts, i)))],
            asOf,
            Recorded(asOf + known));

    // Most rules change their answer within days of something that happened: look then.
    private static Day Near(RandomAnimal[] animals, int fact, int after)
    {
        var facts = animals.SelectMany(a => a.Facts).Where(f => f.Day >= Start).ToList();
        return (facts.Count == 0 ? Start : facts[fact % facts.Count].Day) + after;
    }

    private static Fact[] Renamed(IReadOnlyList<Fact> facts, int animal) =>
        [.. facts.Select(f => Named(f, $"{animal}-{f.SourceId}", new FactId(((long)animal << 16) + f.Id.Value)))];

    // A confirm names its calving by source and sourceId: it is renamed with it.
    private static Fact Named(Fact fact, string sourceId, FactId id)
    {
        var renamed = fact with { SourceId = sourceId, Id = id };
        return renamed is Confirm c ? c with { ConfirmsSourceId = sourceId.Split('-')[0] + "-" + c.ConfirmsSourceId } : renamed;
    }
}

/// <summary>Five numbers from which one fact is made.</summary>
internal sealed record Move(int What, int When, int How, int Late, int Order);
