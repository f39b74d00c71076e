using Dapper;
using Microsoft.Data.Sqlite;

namespace ReproLink.Records.Tests;

public sealed class MigrationTests
{
    [Fact]
    public async Task Opening_twice_changes_nothing_and_keeps_what_was_stored()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Reopen();
        using var raw = temp.Raw();
        Assert.Equal(Migrator.Latest, raw.ExecuteScalar<int>("PRAGMA user_version"));
        Assert.Equal("ok", raw.ExecuteScalar<string>("PRAGMA integrity_check"));
        Assert.Equal(temp.Herd, temp.Store.Herds.Find(TempStore.NorthRidge));
    }

    [Fact]
    public async Task A_file_of_a_newer_program_is_refused_and_left_as_it_is()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Store.DisposeAsync();
        using (var raw = temp.Raw())
        {
            raw.Execute("PRAGMA user_version = 999");
        }

        var error = Assert.Throws<InvalidOperationException>(temp.Open);
        Assert.Contains("newer program", error.Message, StringComparison.Ordinal);
        using var after = temp.Raw();
        Assert.Equal(999, after.ExecuteScalar<int>("PRAGMA user_version"));
        Assert.Equal(1, after.ExecuteScalar<int>("SELECT count(*) FROM herd"));
    }

    [Fact]
    public async Task Every_table_is_strict()
    {
        await using var temp = await TempStore.WithHerd();
        using var raw = temp.Raw();
        var loose = raw.Query<string>("SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0 AND name NOT LIKE 'sqlite_%'");
        Assert.Empty(loose);
        Assert.Throws<SqliteException>(() => raw.Execute("INSERT INTO position (one, sequence, recorded) VALUES (1, 'x', 0)"));
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Every_connection_has_the_pragmas_the_second_time_too(bool writing)
    {
        await using var temp = await TempStore.WithHerd();
        for (var i = 0; i < 2; i++)
        {
            using var connection = writing ? Connection.ForWriting(temp.Path) : Connection.ForReading(temp.Path);
            Assert.Equal("wal", connection.Sqlite.ExecuteScalar<string>("PRAGMA journal_mode"));
            Assert.Equal(2, connection.Sqlite.ExecuteScalar<int>("PRAGMA synchronous"));
            Assert.Equal(1, connection.Sqlite.ExecuteScalar<int>("PRAGMA foreign_keys"));
            Assert.Equal(5000, connection.Sqlite.ExecuteScalar<int>("PRAGMA busy_timeout"));
            Assert.Equal(writing ? 0 : 1, connection.Sqlite.ExecuteScalar<int>("PRAGMA query_only"));
            connection.Execute("PRAGMA foreign_keys = OFF");
        }
    }
}
