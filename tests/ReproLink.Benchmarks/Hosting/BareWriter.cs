using Microsoft.Data.Sqlite;
using ReproLink.Benchmarks.Herds;
using ReproLink.Calendar.Facts;

namespace ReproLink.Benchmarks.Hosting;

/// <summary>
/// The yardstick of writing: rows like the store's into a copy of its file, without any of the questions the store asks first
/// (is it known, was it withdrawn, whom does it release, what changed).
/// </summary>
internal sealed class BareWriter(string path)
{
    private const string Fact =
        """
        INSERT INTO fact (herd, animal, day, kind, time, fact, sequence, recorded, source, source_id, revision, code, number, value, words)
        VALUES (1, $animal, $day, $kind, -1, $fact, $sequence, $recorded, 1, $sourceId, 0, $code, NULL, NULL, $words)
        """;

    private const string Change =
        "INSERT INTO change (herd, sequence, recorded, kind, animal, subject) VALUES (1, $sequence, $recorded, 1, $animal, $fact)";

    private const string AsTheStore = "PRAGMA synchronous = FULL; PRAGMA cache_size = -65536; PRAGMA wal_autocheckpoint = 8000;";

    private long _next = 1L << 40;

    public static BareWriter BesideOf(HerdFile file)
    {
        var copy = file.Beside("bare.db");
        File.Copy(file.Path, copy, overwrite: true);
        return new BareWriter(copy);
    }

    /// <summary>One row on a connection of its own, as a service writes that opens one for each request.</summary>
    public void WriteOne(int animal, int day, FactKind kind)
    {
        using var connection = Open("PRAGMA synchronous = FULL;");
        using var command = Command(connection, Fact);
        Fill(command, animal, day, kind, Interlocked.Increment(ref _next));
        command.ExecuteNonQuery();
    }

    /// <summary>Many rows by one prepared command in one transaction.</summary>
    public void WriteBatch(IReadOnlyList<int> animals, int day, FactKind kind, bool withChanges)
    {
        using var connection = Open(AsTheStore);
        using var transaction = connection.BeginTransaction();
        using var fact = Command(connection, Fact);
        using var change = Command(connection, Change);
        foreach (var animal in animals)
        {
            var next = Interlocked.Increment(ref _next);
            Fill(fact, animal, day, kind, next);
            fact.ExecuteNonQuery();
            if (withChanges)
            {
                Fill(change, animal, day, kind, next);
                change.ExecuteNonQuery();
            }
        }

        transaction.Commit();
    }

    private SqliteConnection Open(string pragmas)
    {
        var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Pooling = true }.ToString());
        connection.Open();
        using var pragma = connection.CreateCommand();
#pragma warning disable CA2100 // The constants of this class.
        pragma.CommandText = pragmas;
#pragma warning restore CA2100
        pragma.ExecuteNonQuery();
        return connection;
    }

    private static SqliteCommand Command(SqliteConnection connection, string sql)
    {
        var command = connection.CreateCommand();
#pragma warning disable CA2100 // The two constants above.
        command.CommandText = sql;
#pragma warning restore CA2100
        foreach (var name in (string[])["$animal", "$day", "$kind", "$fact", "$sequence", "$recorded", "$sourceId", "$code", "$words"])
        {
            if (sql.Contains(name, StringComparison.Ordinal))
            {
                command.Parameters.Add(new SqliteParameter(name, null));
            }
        }

        return command;
    }

    private static void Fill(SqliteCommand command, int animal, int day, FactKind kind, long next)
    {
        foreach (SqliteParameter parameter in command.Parameters)
        {
            parameter.Value = parameter.ParameterName switch
            {
                "$animal" => animal + 1L,
                "$day" => (long)day,
                "$kind" => (long)kind,
                // Scattered as the store's ids are: they are hashes.
                "$fact" => unchecked(next * (long)0x9E3779B97F4A7C15UL),
                "$sequence" => next,
                "$recorded" => 17_000_000_000_000_000L,
                "$sourceId" => $"bare-{next}",
                "$code" => 17L,
                _ => """{"specimen":"serum"}""",
            };
        }
    }
}
