using Dapper;
using Microsoft.Data.Sqlite;

namespace ReproLink.Records.Tests;

public sealed class BackupTests
{
    [Fact]
    public async Task A_backup_taken_while_facts_are_posted_opens_as_a_store_and_holds_whole_requests()
    {
        await using var temp = await TempStore.WithHerd();
        var (secret, _) = await temp.Store.Keys.Create("app", KeyRole.Manager, null, TempStore.Noon);
        await Enumerate(temp, 0, 50);
        var posting = Enumerate(temp, 50, 400);
        await temp.Store.BackupTo(temp.File("copy.db"), CancellationToken.None);
        await posting;

        await using var restored = Store.Open(temp.File("copy.db"));
        var herd = restored.Herds.Find(TempStore.NorthRidge)!;
        var facts = restored.Facts.List(herd, null, null, 10_000).Items;
        Assert.InRange(facts.Count, 100, 800);
        Assert.Equal(0, facts.Count % 2);
        Assert.Equal(temp.Store.Facts.List(temp.Herd, null, null, facts.Count).Items.Select(f => f.Fact), facts.Select(f => f.Fact));
        Assert.NotNull(restored.Keys.Authenticate(secret));
        Assert.Equal(facts.Select(f => f.Animal).Distinct().Count(), restored.Views.Current(herd, TempStore.Noon).Animals.Count);

        // Restoring is going on from there.
        var next = await restored.Facts.Append(herd, [Drafts.Of("new", "2026-07-01 calving id c-new")], TempStore.Noon);
        Assert.Equal(AppendStatus.Accepted, next[0].Status);
    }

    [Fact]
    public async Task A_backup_is_complete_sound_and_never_overwrites()
    {
        await using var temp = await TempStore.WithHerd();
        await Enumerate(temp, 0, 20);
        await temp.Store.BackupTo(temp.File("copy.db"), CancellationToken.None);
        await Assert.ThrowsAsync<IOException>(() => temp.Store.BackupTo(temp.File("copy.db"), CancellationToken.None));
        Assert.False(File.Exists(temp.File("copy.db.partial")));
        using var copy = new SqliteConnection($"Data Source={temp.File("copy.db")};Pooling=False");
        using var original = temp.Raw();
        Assert.Equal("ok", copy.ExecuteScalar<string>("PRAGMA integrity_check"));
        foreach (var table in original.Query<string>("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"))
        {
            Assert.Equal(original.ExecuteScalar<int>($"SELECT count(*) FROM {table}"), copy.ExecuteScalar<int>($"SELECT count(*) FROM {table}"));
        }
    }

    private static async Task Enumerate(TempStore temp, int from, int to)
    {
        for (var i = from; i < to; i++)
        {
            await temp.Store.Facts.Append(
                temp.Herd,
                [Drafts.Of($"{i % 37}", $"2026-07-01 calving id c-{i}"), Drafts.Of($"{i % 37}", $"2026-09-01 insemination id s-{i}")],
                TempStore.Noon);
        }
    }
}
