using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>Reads facts row by row, in the order in which they are folded.</summary>
internal sealed class FactRows
{
    private const string Columns = "animal, day, kind, time, fact, recorded, source, source_id, code, number, value, words";
    private const string OfHerd = $"SELECT {Columns} FROM fact WHERE herd = ?1 ORDER BY animal, day, kind, time, fact";
    private const string OfAnimal = $"SELECT {Columns} FROM fact WHERE herd = ?1 AND animal = ?2 ORDER BY day, kind, time, fact";
    private readonly Connection _connection;
    private readonly long _herd;
    private readonly long _knownAt;
    private readonly TextPool _texts;
    private readonly Dictionary<long, string> _sources = [];

    /// <param name="connection">Inside a transaction: several statements read one moment.</param>
    /// <param name="herd">The herd.</param>
    /// <param name="knownAt">Facts recorded, and not withdrawn, at or before it (rule F1); null = all that stand now.</param>
    /// <param name="texts">Texts shared with earlier reads.</param>
    public FactRows(Connection connection, long herd, long? knownAt, TextPool texts)
    {
        _connection = connection;
        _herd = herd;
        _knownAt = knownAt ?? long.MaxValue;
        _texts = texts;
        var statement = connection.Prepared("SELECT source, name FROM source WHERE herd = ?1").Bind(1, herd);
        while (statement.Step())
        {
            _sources.Add(statement.Long(0), statement.Text(1));
        }
    }

    /// <summary>Every animal with at least one fact that counts.</summary>
    public IEnumerable<(long Animal, Fact[] Facts)> Herd()
    {
        var withdrawn = Withdrawn(_connection.Prepared("SELECT fact FROM withdrawal WHERE herd = ?1 AND recorded <= ?2")
            .Bind(1, _herd).Bind(2, _knownAt));
        var rows = _connection.Prepared(OfHerd).Bind(1, _herd);
        var facts = new List<Fact>();
        var current = long.MinValue;
        while (rows.Step())
        {
            var animal = rows.Long(0);
            if (animal != current)
            {
                if (facts.Count > 0)
                {
                    yield return (current, InOrder(facts));
                    facts.Clear();
                }

                current = animal;
            }

            AddIfItCounts(rows, withdrawn, facts);
        }

        if (facts.Count > 0)
        {
            yield return (current, InOrder(facts));
        }
    }

    /// <summary>The facts of one animal that count; empty when she has none.</summary>
    public Fact[] Animal(long animal)
    {
        var withdrawn = Withdrawn(_connection.Prepared("SELECT fact FROM withdrawal WHERE herd = ?1 AND recorded <= ?2 AND animal = ?3")
            .Bind(1, _herd).Bind(2, _knownAt).Bind(3, animal));
        var rows = _connection.Prepared(OfAnimal).Bind(1, _herd).Bind(2, animal);
        var facts = new List<Fact>();
        while (rows.Step())
        {
            AddIfItCounts(rows, withdrawn, facts);
        }

        return InOrder(facts);
    }

    private static HashSet<long> Withdrawn(Statement statement)
    {
        var ids = new HashSet<long>();
        while (statement.Step())
        {
            ids.Add(statement.Long(0));
        }

        return ids;
    }

    private void AddIfItCounts(Statement rows, HashSet<long> withdrawn, List<Fact> facts)
    {
        var id = rows.Long(4);
        var recorded = rows.Long(5);
        if (recorded > _knownAt || (withdrawn.Count > 0 && withdrawn.Contains(id)))
        {
            return;
        }

        var stamp = new FactStamp(new FactId(id), _sources[rows.Long(6)], rows.Text(7), Ticks.From(recorded));
        var content = new EncodedFact(
            rows.Int(1), rows.Int(2), rows.Int(3), rows.Long(8), rows.LongOrNull(9), rows.RealOrNull(10), Words: null);
        facts.Add(FactDecoder.Decode(stamp, content, _texts.Get(rows.Utf8(11))));
    }

    // The rows come in fold order but for ties (two facts of one kind and time; two kinds of service on one day).
    private static Fact[] InOrder(List<Fact> facts)
    {
        var array = facts.ToArray();
        for (var i = 1; i < array.Length; i++)
        {
            if (FactOrder.Instance.Compare(array[i - 1], array[i]) > 0)
            {
                Array.Sort(array, FactOrder.Instance);
                break;
            }
        }

        return array;
    }
}
