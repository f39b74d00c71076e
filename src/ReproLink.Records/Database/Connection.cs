using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace ReproLink.Records;

/// <summary>One open connection with its prepared statements. Every pragma is set here and nowhere else.</summary>
internal sealed class Connection : IDisposable
{
    private const int BusyMilliseconds = 5000;
    // By reference: every text is a constant, and hashing a long one costs more than running it.
    private readonly Dictionary<string, Statement> _statements = new(ReferenceEqualityComparer.Instance);

    private Connection(SqliteConnection sqlite) => Sqlite = sqlite;

    public SqliteConnection Sqlite { get; }

    /// <summary>Whether a transaction is open: some errors (disk full) end it behind the caller's back.</summary>
    public bool InTransaction => raw.sqlite3_get_autocommit(Sqlite.Handle) == 0;

    // A batch touches pages all over a herd: they must fit the cache, and going back into the file can wait for 32 MB of them.
    public static Connection ForWriting(string path) => Open(
        path, "PRAGMA journal_mode = WAL; PRAGMA journal_size_limit = 67108864; PRAGMA cache_size = -65536; PRAGMA wal_autocheckpoint = 8000;");

    public static Connection ForReading(string path) => Open(path, "PRAGMA query_only = ON; PRAGMA mmap_size = 1073741824;");

    public static Connection ForBackup(string path) => Open(path, "");

    private static Connection Open(string path, string pragmas)
    {
        DapperSetup.Ensure();
        // Not pooled by the provider: its pool hands a pragma set by one user on to the next.
        var text = new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Pooling = false,
            ForeignKeys = true,
            DefaultTimeout = BusyMilliseconds / 1000,
        };
        var sqlite = new SqliteConnection(text.ToString());
        try
        {
            sqlite.Open();
            var connection = new Connection(sqlite);
            connection.Execute($"PRAGMA busy_timeout = {BusyMilliseconds}; {pragmas} PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON;");
            return connection;
        }
        catch
        {
            sqlite.Dispose();
            throw;
        }
    }

    /// <summary>The statement of this text, which must be a constant; prepared on first use.</summary>
    public Statement Prepared(string sql)
    {
        if (!_statements.TryGetValue(sql, out var statement))
        {
            _statements[sql] = statement = new Statement(Sqlite, sql);
        }

        // A request that failed half way may have left it running.
        statement.Reset();
        return statement;
    }

    /// <summary>Ends what still stands on a row: it would hold the moment it reads beyond the end of the transaction.</summary>
    public void ResetAll()
    {
        foreach (var statement in _statements.Values)
        {
            statement.Reset();
        }
    }

    /// <summary>Runs a script.</summary>
    public void Execute(string sql)
    {
        using var command = Sqlite.CreateCommand();
#pragma warning disable CA2100 // Only constants of this project and migrations embedded in it come here.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }

    public void Dispose()
    {
        foreach (var statement in _statements.Values)
        {
            statement.Dispose();
        }

        Sqlite.Dispose();
    }
}
