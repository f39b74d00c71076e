using Dapper;
using NodaTime;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Testing;

namespace ReproLink.Records;

/// <summary>Reads a herd: whole, or only what changed since it was read last.</summary>
internal static class HerdReader
{
    private static readonly IComparer<AnimalHistory> ByName =
        Comparer<AnimalHistory>.Create((a, b) => NaturalOrder.Instance.Compare(a.Animal, b.Animal));

    /// <param name="connection">Inside a transaction.</param>
    /// <param name="herd">The herd's number.</param>
    /// <param name="knownAt">What was known at that moment (rule F1); null = now.</param>
    /// <param name="texts">Texts shared with other reads.</param>
    public static HerdMemory Whole(Connection connection, long herd, long? knownAt, TextPool texts)
    {
        var (sequence, recorded) = Position(connection, herd, knownAt);
        var card = HerdOf(connection, herd);
        var held = HeldRows.Notices(connection, herd, knownAt);
        var names = connection.Sqlite.Query<AnimalRow>(AnimalRow.Select, new { herd }).ToDictionary(row => row.Animal, row => row.Name);
        var histories = new List<AnimalHistory>(names.Count);
        var count = 0L;
        foreach (var (animal, facts) in new FactRows(connection, herd, knownAt, texts).Herd())
        {
            histories.Add(HistoryOf(names[animal], facts, held));
            count += facts.Length;
        }

        var sorted = histories.ToArray();
        Array.Sort(sorted, ByName);
        return new HerdMemory(card, sequence, recorded, RulesOf(connection, card, knownAt), sorted, held, count);
    }

    /// <summary>Brings a herd up to date; animals that nothing changed keep their very objects.</summary>
    public static HerdMemory Since(Connection connection, HerdMemory old, TextPool texts)
    {
        var herd = old.Herd.Id;
        var (sequence, recorded) = Position(connection, herd, knownAt: null);
        if (sequence == old.Sequence)
        {
            return old;
        }

        var changes = Changes.Read(connection, herd, old.Sequence);
        if (changes.Animals.Count > 100 + (old.Histories.Length / 4))
        {
            return Whole(connection, herd, knownAt: null, texts);
        }

        var card = changes.Herd ? HerdOf(connection, herd) : old.Herd;
        var rules = changes.Rules ? RulesOf(connection, card, knownAt: null) : old.Rules;
        var held = changes.Held ? HeldRows.Notices(connection, herd, knownAt: null) : old.Held;
        var histories = new List<AnimalHistory>(old.Histories);
        var rows = new FactRows(connection, herd, knownAt: null, texts);
        var count = old.Facts;
        foreach (var animal in changes.Animals)
        {
            count += Put(histories, HistoryOf(NameOf(connection, herd, animal), rows.Animal(animal), held));
        }

        if (changes.Held)
        {
            Renotice(histories, old.Held, held);
        }

        return new HerdMemory(card, sequence, recorded, rules, [.. histories], held, count);
    }

    /// <summary>
    /// Some animals as they are now; null when the herd's rules, or the herd itself, changed since <paramref name="old"/> was read, or more
    /// than <paramref name="mostBehind"/> changes lie between.
    /// </summary>
    public static (Dictionary<string, AnimalHistory?> Animals, Instant Recorded)? Some(
        Connection connection, HerdMemory old, IReadOnlyCollection<string> animals, int mostBehind)
    {
        var herd = old.Herd.Id;
        if (Changes.GovernOrAreMoreThan(connection, herd, old.Sequence, mostBehind))
        {
            return null;
        }

        var found = new Dictionary<string, AnimalHistory?>(StringComparer.Ordinal);
        foreach (var animal in animals)
        {
            found[animal] = One(connection, herd, animal, knownAt: null);
        }

        return (found, Position(connection, herd, knownAt: null).Recorded);
    }

    /// <summary>One animal alone; null when no fact of hers counts.</summary>
    public static AnimalHistory? One(Connection connection, long herd, string animal, long? knownAt)
    {
        var statement = connection.Prepared("SELECT animal FROM animal WHERE herd = ?1 AND name = ?2").Bind(1, herd).Bind(2, animal);
        if (!statement.Step())
        {
            return null;
        }

        var facts = new FactRows(connection, herd, knownAt, new TextPool()).Animal(statement.Long(0));
        return facts.Length == 0 ? null : HistoryOf(animal, facts, HeldRows.Notices(connection, herd, knownAt));
    }

    public static HerdRules RulesAt(Connection connection, long herd, long? knownAt) =>
        RulesOf(connection, HerdOf(connection, herd), knownAt);

    /// <summary>The last change of a herd, and when it was recorded.</summary>
    public static (long Sequence, Instant Recorded) Position(Connection connection, long herd, long? knownAt)
    {
        // Recorded time never runs backwards, so the last recorded by then is the last of those.
        var statement = connection.Prepared(
                "SELECT sequence, recorded FROM change WHERE herd = ?1 AND recorded <= ?2 ORDER BY sequence DESC LIMIT 1")
            .Bind(1, herd).Bind(2, knownAt ?? long.MaxValue);
        if (!statement.Step())
        {
            return (0, Instant.MinValue);
        }

        var position = (statement.Long(0), Ticks.From(statement.Long(1)));
        statement.Reset();
        return position;
    }

    // Answers how many facts more there are than before.
    private static int Put(List<AnimalHistory> histories, AnimalHistory history)
    {
        var at = histories.BinarySearch(history, ByName);
        var before = at >= 0 ? histories[at].Facts.Count : 0;
        switch (at >= 0, history.Facts.Count > 0)
        {
            case (true, true):
                histories[at] = history;
                break;
            case (true, false):
                histories.RemoveAt(at);
                break;
            case (false, true):
                histories.Insert(~at, history);
                break;
            default:
                break;
        }

        return history.Facts.Count - before;
    }

    private static void Renotice(
        List<AnimalHistory> histories,
        Dictionary<string, IReadOnlyList<HeldNotice>> before,
        Dictionary<string, IReadOnlyList<HeldNotice>> after)
    {
        foreach (var animal in before.Keys.Union(after.Keys, StringComparer.Ordinal))
        {
            var at = histories.BinarySearch(new AnimalHistory(animal, [], []), ByName);
            var notices = after.GetValueOrDefault(animal, []);
            if (at >= 0 && !histories[at].Held.SequenceEqual(notices))
            {
                histories[at] = histories[at] with { Held = notices };
            }
        }
    }

    private static AnimalHistory HistoryOf(string name, Fact[] facts, Dictionary<string, IReadOnlyList<HeldNotice>> held) =>
        new(name, facts, held.GetValueOrDefault(name, []));

    private static Herd HerdOf(Connection connection, long herd) => connection.Sqlite
        .QuerySingle<HerdRow>($"{HerdRow.Select} WHERE herd = @herd", new { herd }).ToHerd();

    private static HerdRules RulesOf(Connection connection, Herd herd, long? knownAt) => new(
        DateTimeZoneProviders.Tzdb[herd.TimeZone],
        ProgrammeBook.List(connection, herd.Id, knownAt).Where(saved => !saved.Draft).Select(saved => saved.Version),
        ProtocolShelf.Own(connection, herd.Id, knownAt));

    private static string NameOf(Connection connection, long herd, long animal)
    {
        var statement = connection.Prepared("SELECT name FROM animal WHERE herd = ?1 AND animal = ?2").Bind(1, herd).Bind(2, animal);
        statement.Step();
        var name = statement.Text(0);
        statement.Reset();
        return name;
    }

    /// <summary>What changed since a herd was read.</summary>
    private sealed record Changes(HashSet<long> Animals, bool Herd, bool Rules, bool Held)
    {
        // What another kind changes is an animal's own.
        private static readonly ChangeKind[] Governing = [ChangeKind.Herd, ChangeKind.Programme, ChangeKind.Approval, ChangeKind.Refusal, ChangeKind.Protocol];

        private static readonly string GoverningAfter =
            $"SELECT count(*), coalesce(max(kind IN ({string.Join(", ", Governing.Select(kind => (int)kind))})), 0) FROM change WHERE herd = ?1 AND sequence > ?2";

        /// <summary>Whether the changes after a sequence number touch the herd's card or rules, or are many; counted by the database.</summary>
        public static bool GovernOrAreMoreThan(Connection connection, long herd, long after, int most)
        {
            var statement = connection.Prepared(GoverningAfter).Bind(1, herd).Bind(2, after);
            statement.Step();
            var (count, governing) = (statement.Long(0), statement.Int(1));
            statement.Reset();
            return governing != 0 || count > most;
        }

        public static Changes Read(Connection connection, long herd, long after)
        {
            var animals = new HashSet<long>();
            var kinds = new HashSet<ChangeKind>();
            var statement = connection.Prepared("SELECT kind, animal FROM change WHERE herd = ?1 AND sequence > ?2").Bind(1, herd).Bind(2, after);
            while (statement.Step())
            {
                kinds.Add((ChangeKind)statement.Int(0));
                if (statement.LongOrNull(1) is { } animal)
                {
                    animals.Add(animal);
                }
            }

            var renamed = kinds.Contains(ChangeKind.Herd);
            return new Changes(
                animals,
                renamed,
                kinds.Overlaps(Governing),
                kinds.Contains(ChangeKind.Held) || kinds.Contains(ChangeKind.HeldEnd));
        }
    }
}

/// <summary>A row of <c>animal</c>.</summary>
internal sealed class AnimalRow
{
    public const string Select = "SELECT animal, name FROM animal WHERE herd = @herd";

    public long Animal { get; init; }

    public string Name { get; init; } = "";
}
