using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>Facts one by one or page by page, with what is known of their storage.</summary>
internal static class FactList
{
    internal const string Columns =
        """
        f.day, f.kind, f.time, f.fact, f.recorded, s.name, f.source_id, f.code, f.number, f.value, f.words,
        a.name, f.sequence, w.recorded, w.reason
        """;

    internal const string Joins =
        """
        JOIN source s ON s.herd = f.herd AND s.source = f.source
        JOIN animal a ON a.herd = f.herd AND a.animal = f.animal
        LEFT JOIN withdrawal w ON w.herd = f.herd AND w.animal = f.animal AND w.fact = f.fact
        """;

    private const string ById = $"SELECT {Columns} FROM fact f {Joins} WHERE f.herd = ?1 AND f.fact = ?2";

    // In the order of the sequence: what is posted while a caller pages comes at the end.
    private const string OfHerd =
        $"""
        SELECT {Columns} FROM change c JOIN fact f ON f.herd = c.herd AND f.fact = c.subject {Joins}
        WHERE c.herd = ?1 AND c.sequence > ?2 AND c.kind = 2 AND (?3 OR w.fact IS NULL)
        ORDER BY c.sequence LIMIT ?4
        """;

    private const string OfAnimal =
        $"""
        SELECT {Columns} FROM fact f {Joins}
        WHERE f.herd = ?1 AND f.sequence > ?2 AND (?3 OR w.fact IS NULL)
          AND f.animal = (SELECT animal FROM animal WHERE herd = ?1 AND name = ?5)
        ORDER BY f.sequence LIMIT ?4
        """;

    public static StoredFact? Find(Connection connection, long herd, FactId id)
    {
        var row = connection.Prepared(ById).Bind(1, herd).Bind(2, id.Value);
        return row.Step() ? Read(row, new TextPool()) : null;
    }

    public static Page<StoredFact> List(Connection connection, long herd, string? animal, long after, int limit, bool withdrawn)
    {
        var statement = connection.Prepared(animal is null ? OfHerd : OfAnimal)
            .Bind(1, herd).Bind(2, after).Bind(3, withdrawn ? 1 : 0).Bind(4, limit + 1L);
        if (animal is not null)
        {
            statement.Bind(5, animal);
        }

        var texts = new TextPool();
        var facts = new List<StoredFact>();
        while (statement.Step())
        {
            facts.Add(Read(statement, texts));
        }

        // One more than asked for was read: it tells that there is a next page.
        var more = facts.Count > limit;
        return new Page<StoredFact>(more ? facts[..limit] : facts, more ? Cursor.Write(facts[limit - 1].Sequence) : null);
    }

    internal static StoredFact Read(Statement row, TextPool texts)
    {
        var stamp = new FactStamp(new FactId(row.Long(3)), row.Text(5), row.Text(6), Ticks.From(row.Long(4)));
        var content = new EncodedFact(
            row.Int(0), row.Int(1), row.Int(2), row.Long(7), row.LongOrNull(8), row.RealOrNull(9), Words: null);
        var fact = FactDecoder.Decode(stamp, content, texts.Get(row.Utf8(10)));
        return new StoredFact(row.Text(11), fact, row.Long(12), Ticks.From(row.LongOrNull(13)), row.TextOrNull(14));
    }
}
