namespace ReproLink.Records;

/// <summary>The numbers that stand for animals and sources within a herd; the writer's alone.</summary>
internal sealed class Names(Connection connection)
{
    private const int Most = 200_000;
    private readonly Dictionary<(long Herd, string Name), long> _animals = [];
    private readonly Dictionary<(long Herd, string Name), long> _sources = [];

    /// <summary>After anything was undone, or written by another process.</summary>
    public void Forget()
    {
        _animals.Clear();
        _sources.Clear();
    }

    public long? FindAnimal(long herd, string name) => Find(_animals, "SELECT animal FROM animal WHERE herd = ?1 AND name = ?2", herd, name);

    public long Animal(long herd, string name) =>
        FindAnimal(herd, name) ?? Add(
            _animals,
            "INSERT INTO animal (herd, animal, name) SELECT ?1, COALESCE(MAX(animal), 0) + 1, ?2 FROM animal WHERE herd = ?1 RETURNING animal",
            herd,
            name);

    public long? FindSource(long herd, string name) => Find(_sources, "SELECT source FROM source WHERE herd = ?1 AND name = ?2", herd, name);

    public long Source(long herd, string name) =>
        FindSource(herd, name) ?? Add(
            _sources,
            "INSERT INTO source (herd, source, name) SELECT ?1, COALESCE(MAX(source), 0) + 1, ?2 FROM source WHERE herd = ?1 RETURNING source",
            herd,
            name);

    private long? Find(Dictionary<(long, string), long> known, string sql, long herd, string name)
    {
        if (known.TryGetValue((herd, name), out var number))
        {
            return number;
        }

        var statement = connection.Prepared(sql).Bind(1, herd).Bind(2, name);
        if (!statement.Step())
        {
            return null;
        }

        number = statement.Long(0);
        statement.Reset();
        return Remember(known, herd, name, number);
    }

    private long Add(Dictionary<(long, string), long> known, string sql, long herd, string name)
    {
        var statement = connection.Prepared(sql).Bind(1, herd).Bind(2, name);
        statement.Step();
        var number = statement.Long(0);
        statement.Run();
        return Remember(known, herd, name, number);
    }

    private static long Remember(Dictionary<(long, string), long> known, long herd, string name, long number)
    {
        if (known.Count >= Most)
        {
            known.Clear();
        }

        known[(herd, name)] = number;
        return number;
    }
}
