using Dapper;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records.Tests;

public sealed class WriterTests
{
    private static readonly Fact Unstorable =
        new TestResult(new Day(20_000), TestMethod.Blood, null) { Source = "s", SourceId = "bad", Value = double.NaN };

    [Fact]
    public async Task One_failing_request_among_sixteen_writers_fails_alone()
    {
        await using var temp = await TempStore.WithHerd();
        var writers = Enumerable.Range(0, 16).Select(w => Task.Run(async () =>
        {
            for (var i = 0; i < 25; i++)
            {
                FactDraft good = Drafts.Of($"{w}", $"2026-07-01 oestrus id {w}-{i}");
                if (w == 7 && i % 2 == 0)
                {
                    // Its first draft is good: it must go with the second.
                    var bad = new FactDraft("new animal", Unstorable);
                    await Assert.ThrowsAsync<ArgumentException>(() => temp.Store.Facts.Append(temp.Herd, [good, bad], TempStore.Noon));
                }
                else
                {
                    var answer = await temp.Store.Facts.Append(temp.Herd, [good], TempStore.Noon);
                    using var raw = temp.Raw();
                    Assert.Equal(1, raw.ExecuteScalar<int>("SELECT count(*) FROM fact WHERE fact = @Value", new { answer[0].Id.Value }));
                }
            }
        }));
        await Task.WhenAll(writers);
        Assert.Equal((16, (16 * 25) - 13), temp.Store.Herds.Counts(temp.Herd));
        var sequences = temp.Store.Changes.After(temp.Herd, null, 1000).Items.Select(c => c.Sequence);
        Assert.Equal(Enumerable.Range(1, 1 + (16 * 25) - 13).Select(i => (long)i), sequences);
    }

    // Whoever reads a change from the file before anyone was told of it must not be shown a herd without it.
    [Fact]
    public async Task Changes_are_announced_before_anyone_can_read_them()
    {
        await using var temp = await TempStore.WithHerd();
        var readable = new List<long>();
        await using var writer = new Writer(Connection.ForWriting(temp.Path), touched =>
        {
            using var raw = temp.Raw();
            readable.Add(touched[temp.Herd.Id] - raw.ExecuteScalar<long>("SELECT max(sequence) FROM change"));
        });
        for (var i = 0; i < 3; i++)
        {
            await writer.Write(unit => unit.Change(temp.Herd.Id, unit.Record(TempStore.Noon), ChangeKind.Herd, null, temp.Herd.Id));
        }

        Assert.Equal([1L, 1L, 1L], readable);
    }

    [Fact]
    public async Task Requests_that_queue_up_share_one_commit_and_are_answered_after_it()
    {
        await using var temp = await TempStore.WithHerd();
        var commits = 0;
        await using var writer = new Writer(Connection.ForWriting(temp.Path), _ => Interlocked.Increment(ref commits));
        using var started = new ManualResetEventSlim();
        using var hold = new ManualResetEventSlim();
        var first = writer.Write(_ =>
        {
            started.Set();
            return hold.Wait(TimeSpan.FromSeconds(10));
        });
        Assert.True(started.Wait(TimeSpan.FromSeconds(10)));
        var rest = Enumerable.Range(0, 100).Select(i => writer.Write(unit => unit.Names.Animal(temp.Herd.Id, $"{i}"))).ToArray();
        Assert.DoesNotContain(rest, task => task.IsCompleted);
        hold.Set();
        await Task.WhenAll(rest);
        Assert.True(await first);
        Assert.Equal(2, commits);
    }

    [Fact]
    public async Task A_commit_that_fails_fails_its_whole_batch_and_the_next_one_works()
    {
        await using var temp = await TempStore.WithHerd();
        var commits = 0;
        await using var writer = new Writer(Connection.ForWriting(temp.Path), _ => commits++);
        using var started = new ManualResetEventSlim();
        using var hold = new ManualResetEventSlim();
        var first = writer.Write(_ =>
        {
            started.Set();
            return hold.Wait(TimeSpan.FromSeconds(10));
        });
        Assert.True(started.Wait(TimeSpan.FromSeconds(10)));
        var good = writer.Write(unit => unit.Names.Animal(temp.Herd.Id, "good"));
        // A foreign key that is checked at the commit.
        var bad = writer.Write(unit =>
        {
            unit.Connection.Execute("PRAGMA defer_foreign_keys = ON; INSERT INTO animal (herd, animal, name) VALUES (999, 1, 'x')");
            return true;
        });
        hold.Set();
        await first;
        await Assert.ThrowsAsync<Microsoft.Data.Sqlite.SqliteException>(() => good);
        await Assert.ThrowsAsync<Microsoft.Data.Sqlite.SqliteException>(() => bad);
        Assert.Equal(1, await writer.Write(unit => unit.Names.Animal(temp.Herd.Id, "after")));
        using var raw = temp.Raw();
        Assert.Equal(["after"], raw.Query<string>("SELECT name FROM animal"));
    }

    [Fact]
    public async Task Closing_answers_everything_that_was_queued()
    {
        await using var temp = await TempStore.WithHerd();
        var tasks = Enumerable.Range(0, 500).Select(i => temp.Post("1", $"2026-07-01 oestrus id {i}")).ToArray();
        await temp.Reopen();
        Assert.All(await Task.WhenAll(tasks), answer => Assert.Equal(AppendStatus.Accepted, answer.Status));
        Assert.Equal((1, 500), temp.Store.Herds.Counts(temp.Herd));
        using var raw = temp.Raw();
        Assert.Equal("ok", raw.ExecuteScalar<string>("PRAGMA integrity_check"));
        Assert.Empty(raw.Query("PRAGMA foreign_key_check"));
    }

    [Fact]
    public async Task After_closing_the_store_is_unhealthy_and_refuses_writes()
    {
        await using var temp = await TempStore.WithHerd();
        Assert.True(temp.Store.IsHealthy());
        await temp.Store.DisposeAsync();
        Assert.False(temp.Store.IsHealthy());
        await Assert.ThrowsAsync<System.Threading.Channels.ChannelClosedException>(() => temp.Post("1", "2026-07-01 oestrus id 1"));
    }

    [Fact]
    public async Task Two_processes_on_one_file_do_not_take_each_others_numbers()
    {
        await using var temp = await TempStore.WithHerd();
        await using var other = temp.Open();
        for (var i = 0; i < 20; i++)
        {
            await temp.Post($"a{i}", $"2026-07-01 oestrus source a id {i}");
            await other.Facts.Append(temp.Herd, [Drafts.Of($"b{i}", $"2026-07-01 oestrus source b id {i}")], TempStore.Noon);
        }

        Assert.Equal((40, 40), temp.Store.Herds.Counts(temp.Herd));
        Assert.Equal(40, temp.Store.Views.Current(temp.Herd, TempStore.Noon).Animals.Count);
        Assert.Equal(Enumerable.Range(1, 41).Select(i => (long)i), temp.Store.Changes.After(temp.Herd, null, 100).Items.Select(c => c.Sequence));
    }
}
