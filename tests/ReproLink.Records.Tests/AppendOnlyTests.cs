using Dapper;
using Microsoft.Data.Sqlite;
using NodaTime;

namespace ReproLink.Records.Tests;

public sealed class AppendOnlyTests
{
    [Theory]
    [InlineData("fact", "UPDATE fact SET day = 1")]
    [InlineData("fact", "DELETE FROM fact")]
    [InlineData("withdrawal", "UPDATE withdrawal SET reason = 'x'")]
    [InlineData("withdrawal", "DELETE FROM withdrawal")]
    [InlineData("change", "DELETE FROM change")]
    [InlineData("programme", "UPDATE programme SET draft = 1")]
    [InlineData("approval", "DELETE FROM approval")]
    [InlineData("held", "UPDATE held SET content = ''")]
    [InlineData("held_end", "DELETE FROM held_end")]
    public async Task No_program_changes_or_removes_a_row_of_the_record(string table, string sql)
    {
        await using var temp = await TempStore.WithHerd();
        var fact = await temp.Post("1", "2026-07-01 calving id c-1");
        await temp.Store.Facts.Withdraw(temp.Herd, fact.Id, "wrong", "anna", TempStore.Noon);
        var version = await temp.Store.Programmes.Save(temp.Herd, Calendar.Programmes.Programme.Default, false, "{}", "anna", TempStore.Noon);
        await temp.Store.Programmes.Approve(temp.Herd, version, "vet", null, TempStore.Noon);
        var held = await temp.Store.Held.Hold(temp.Herd, new HeldDraft("lab", "1", "9", null, "unknown-animal", "{}", null), TempStore.Noon);
        await temp.Store.Held.Dismiss(temp.Herd, held, "no", "anna", TempStore.Noon);
        using var raw = temp.Raw();
        Assert.True(raw.ExecuteScalar<int>($"SELECT count(*) FROM {table}") > 0);
        var error = Assert.Throws<SqliteException>(() => raw.Execute(sql));
        Assert.Equal(1811, error.SqliteExtendedErrorCode);
    }

    [Fact]
    public async Task Recorded_time_and_sequence_never_run_backwards()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Post("1", "2026-07-01 calving id c-1", TempStore.Noon + Duration.FromHours(2));
        await temp.Post("1", "2026-07-02 oestrus id c-2", TempStore.Noon);
        await temp.Reopen();
        await temp.Post("1", "2026-07-03 oestrus id c-3", TempStore.Noon - Duration.FromDays(1));
        var changes = temp.Store.Changes.After(temp.Herd, null, 100).Items;
        Assert.Equal([1, 2, 3, 4], changes.Select(c => c.Sequence));
        Assert.All(changes.Skip(1), c => Assert.Equal(TempStore.Noon + Duration.FromHours(2), c.Recorded));
        Assert.Equal(["", "1", "1", "1"], changes.Select(c => c.Animal ?? ""));
    }

    [Fact]
    public async Task List_PageByPage_IsTheWholeEvenWhileFactsArrive()
    {
        await using var temp = await TempStore.WithHerd();
        for (var i = 0; i < 10; i++)
        {
            await temp.Post($"{9 - i}", $"2026-07-{20 - i} oestrus id o-{i}");
        }

        var seen = new List<string>();
        string? after = null;
        do
        {
            var page = temp.Store.Facts.List(temp.Herd, null, after, 3);
            seen.AddRange(page.Items.Select(f => f.Fact.SourceId));
            after = page.Next;
            if (seen.Count == 3)
            {
                await temp.Post("0", "2026-01-01 oestrus id late");
            }
        }
        while (after is not null);

        Assert.Equal([.. Enumerable.Range(0, 10).Select(i => $"o-{i}"), "late"], seen);
        Assert.Equal(["o-9", "late"], temp.Store.Facts.List(temp.Herd, "0", null, 5).Items.Select(f => f.Fact.SourceId));
        Assert.False(Cursor.IsValid("nonsense"));
        Assert.Throws<ArgumentException>(() => temp.Store.Facts.List(temp.Herd, null, "nonsense", 3));
    }
}
