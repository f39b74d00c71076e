using Microsoft.Data.Sqlite;

namespace ReproLink.Benchmarks.Herds;

/// <summary>The yardstick of a read: a plain data reader over the same rows, with the pragmas the store reads with.</summary>
internal static class RawRows
{
    // The columns the store itself reads: an explanation names the facts it rests on.
    private const string Rows =
        "SELECT animal, day, kind, time, fact, recorded, source, source_id, code, number, value, words FROM fact WHERE herd = 1 ORDER BY animal, day, kind, time, fact";

    private const string Eligible =
        """
        SELECT count(*) FROM (
          SELECT max(CASE WHEN kind = 3 THEN day END) AS calved, max(CASE WHEN kind = 6 THEN day END) AS served,
            max(CASE WHEN kind IN (10, 11) THEN day END) AS sampled
          FROM fact WHERE herd = 1 GROUP BY animal)
        WHERE served > calved AND served + 28 <= $today AND calved + 60 <= $today AND NOT coalesce(sampled > served, 0)
        """;

    public static SqliteConnection Open(string path)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Pooling = false }.ToString());
        connection.Open();
        using var pragmas = connection.CreateCommand();
        pragmas.CommandText = "PRAGMA busy_timeout = 5000; PRAGMA query_only = ON; PRAGMA mmap_size = 1073741824; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;";
        pragmas.ExecuteNonQuery();
        return connection;
    }

    /// <summary>Reads every row of the herd, every column of it, and folds it with the bare fold.</summary>
    public static BareTotals ReadAndFold(string path, int today)
    {
        using var connection = Open(path);
        using var command = connection.CreateCommand();
        command.CommandText = Rows;
        using var reader = command.ExecuteReader();
        var fold = new BareFold(today);
        while (reader.Read())
        {
            var code = reader.GetInt64(8);
            fold.Add(reader.GetInt32(0), reader.GetInt32(1), reader.GetInt32(2), (int)(code >> 3) & 7);
            ReadTheRest(reader);
        }

        return fold.Done();
    }

    /// <summary>How many may be bled on a day for a first test, by one aggregate over the rows.</summary>
    public static long CountEligible(SqliteConnection connection, int today)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Eligible;
        command.Parameters.AddWithValue("$today", today);
        return (long)command.ExecuteScalar()!;
    }

    private static void ReadTheRest(SqliteDataReader reader)
    {
        _ = reader.GetInt32(3);
        _ = reader.GetInt64(4);
        _ = reader.GetInt64(5);
        _ = reader.GetInt64(6);
        _ = reader.GetString(7);
        _ = reader.IsDBNull(9) ? 0 : reader.GetInt64(9);
        _ = reader.IsDBNull(10) ? 0 : reader.GetDouble(10);
        _ = reader.IsDBNull(11) ? null : reader.GetString(11);
    }
}
