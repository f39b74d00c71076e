using Dapper;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>Reads held results.</summary>
internal static class HeldRows
{
    public static HeldRow? Latest(Connection connection, long herd, string source, string sourceId) =>
        connection.Sqlite.QueryFirstOrDefault<HeldRow>(
            $"{HeldRow.Select} WHERE herd = @herd AND source = @source AND source_id = @sourceId ORDER BY revision DESC LIMIT 1",
            new { herd, source, sourceId });

    public static HeldRow? Find(Connection connection, long herd, long held) =>
        connection.Sqlite.QueryFirstOrDefault<HeldRow>(
            $"{HeldRow.Select} WHERE herd = @herd AND held = @held", new { herd, held });

    public static HeldEndRow? FindEnd(Connection connection, long herd, long held) =>
        connection.Sqlite.QueryFirstOrDefault<HeldEndRow>(
            $"{HeldEndRow.Select} WHERE herd = @herd AND held = @held", new { herd, held });

    public static bool Exists(Connection connection, long herd, long held) => Find(connection, herd, held) is not null;

    /// <summary>Whether it is open, set aside, or became a fact that still stands.</summary>
    public static bool StillDecides(Connection connection, long herd, long held) => FindEnd(connection, herd, held) switch
    {
        null => true,
        { Ending: HeldEnding.Dismissed } => true,
        { Fact: { } fact } => connection.Sqlite.ExecuteScalar<long>(
            "SELECT count(*) FROM withdrawal w JOIN fact f ON f.herd = w.herd AND f.animal = w.animal AND f.fact = w.fact WHERE f.herd = @herd AND f.fact = @fact",
            new { herd, fact }) == 0,
        _ => false,
    };

    /// <summary>Open at a moment; null = now. Oldest first.</summary>
    public static IEnumerable<HeldRow> Open(Connection connection, long herd, long? knownAt) => knownAt is null
        ? connection.Sqlite.Query<HeldRow>(
            $"{HeldRow.Select} WHERE herd = @herd AND held IN (SELECT held FROM held_open WHERE herd = @herd) ORDER BY sequence",
            new { herd })
        : connection.Sqlite.Query<HeldRow>(
            $"""
            {HeldRow.Select}
            WHERE herd = @herd AND recorded <= @knownAt AND NOT EXISTS (
              SELECT 1 FROM held_end e WHERE e.herd = held.herd AND e.held = held.held AND e.recorded <= @knownAt)
            ORDER BY sequence
            """,
            new { herd, knownAt });

    /// <summary>The latest first.</summary>
    public static List<HeldRow> List(Connection connection, long herd, bool? open, long before, int limit) => connection.Sqlite
        .Query<HeldRow>(
            $"""
            {HeldRow.Select}
            WHERE herd = @herd AND sequence < @before
              AND (@open IS NULL OR @open = NOT EXISTS (SELECT 1 FROM held_end e WHERE e.herd = held.herd AND e.held = held.held))
            ORDER BY sequence DESC LIMIT @limit
            """,
            new { herd, before, open, limit })
        .AsList();

    /// <summary>By animal: the open held results that name or may mean her.</summary>
    public static Dictionary<string, IReadOnlyList<HeldNotice>> Notices(Connection connection, long herd, long? knownAt)
    {
        var notices = new Dictionary<string, IReadOnlyList<HeldNotice>>(StringComparer.Ordinal);
        if (knownAt is null && !HeldWriter.Any(connection, herd))
        {
            return notices; // Mostly so, and asked with every fact that is posted.
        }

        foreach (var row in Open(connection, herd, knownAt))
        {
            var notice = new HeldNotice(HeldWriter.Text(row.Held), Ticks.From(row.Recorded), row.Reason);
            foreach (var animal in row.Means())
            {
                notices[animal] = notices.TryGetValue(animal, out var others) ? [.. others, notice] : [notice];
            }
        }

        return notices;
    }
}
