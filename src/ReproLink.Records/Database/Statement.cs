using System.Buffers;
using System.Text;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace ReproLink.Records;

/// <summary>
/// A statement prepared once and used for the life of its connection. The paths that see every fact use this and not a
/// command: it neither boxes parameters nor looks them up by name, which doubles the rows a second.
/// </summary>
internal sealed class Statement : IDisposable
{
    private readonly sqlite3 _database;
    private readonly sqlite3_stmt _statement;

    public Statement(SqliteConnection connection, string sql)
    {
        _database = connection.Handle ?? throw new InvalidOperationException("The connection is not open.");
        Check(raw.sqlite3_prepare_v3(_database, sql, raw.SQLITE_PREPARE_PERSISTENT, out _statement));
    }

    public Statement Bind(int index, long value)
    {
        Check(raw.sqlite3_bind_int64(_statement, index, value));
        return this;
    }

    public Statement Bind(int index, long? value) => value is { } v ? Bind(index, v) : BindNull(index);

    public Statement Bind(int index, double? value)
    {
        if (value is not { } v)
        {
            return BindNull(index);
        }

        Check(raw.sqlite3_bind_double(_statement, index, v));
        return this;
    }

    public Statement Bind(int index, string? text)
    {
        if (text is null)
        {
            return BindNull(index);
        }

        if (text.Length == 0)
        {
            Check(raw.sqlite3_bind_text(_statement, index, text));
            return this;
        }

        // By length, so that a text with a zero character is kept whole.
        var buffer = ArrayPool<byte>.Shared.Rent(Encoding.UTF8.GetMaxByteCount(text.Length));
        var length = Encoding.UTF8.GetBytes(text, buffer);
        Check(raw.sqlite3_bind_text(_statement, index, buffer.AsSpan(0, length)));
        ArrayPool<byte>.Shared.Return(buffer);
        return this;
    }

    private Statement BindNull(int index)
    {
        Check(raw.sqlite3_bind_null(_statement, index));
        return this;
    }

    /// <summary>True while there is a row; after the last the statement is reset and may be bound again.</summary>
    public bool Step()
    {
        var code = raw.sqlite3_step(_statement);
        if (code == raw.SQLITE_ROW)
        {
            return true;
        }

        _ = raw.sqlite3_reset(_statement);
        if (code != raw.SQLITE_DONE)
        {
            Check(code);
        }

        return false;
    }

    /// <summary>Runs a statement whose rows are of no interest.</summary>
    public void Run()
    {
        while (Step())
        {
        }
    }

    /// <summary>Needed only where reading stops before the last row.</summary>
    public void Reset() => _ = raw.sqlite3_reset(_statement);

    public long Long(int column) => raw.sqlite3_column_int64(_statement, column);

    public int Int(int column) => raw.sqlite3_column_int(_statement, column);

    public double Real(int column) => raw.sqlite3_column_double(_statement, column);

    public bool IsNull(int column) => raw.sqlite3_column_type(_statement, column) == raw.SQLITE_NULL;

    public long? LongOrNull(int column) => IsNull(column) ? null : Long(column);

    public double? RealOrNull(int column) => IsNull(column) ? null : Real(column);

    /// <summary>The text as UTF-8, valid until the next step; empty for null.</summary>
    public ReadOnlySpan<byte> Utf8(int column) => raw.sqlite3_column_blob(_statement, column);

    public string Text(int column) => Encoding.UTF8.GetString(Utf8(column));

    public string? TextOrNull(int column) => IsNull(column) ? null : Text(column);

    public void Dispose() => _statement.Dispose();

    private void Check(int code)
    {
        if (code != raw.SQLITE_OK)
        {
            SqliteException.ThrowExceptionForRC(code, _database);
        }
    }
}
