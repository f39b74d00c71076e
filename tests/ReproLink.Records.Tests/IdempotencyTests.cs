using System.Text;
using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records.Tests;

public sealed class IdempotencyTests
{
    private static readonly byte[] Body = [1, 2, 3];

    [Fact]
    public async Task Submit_SameKeyAndBody_GivesTheStoredAnswerAndDoesNothing()
    {
        await using var temp = await TempStore.WithHerd();
        var first = await Submit(temp, "k", Body, "2026-07-01 oestrus id o-1");
        Assert.Equal(OnceStatus.Done, first.Status);
        var again = await Submit(temp, "k", Body, "2026-07-02 oestrus id o-2");
        Assert.Equal(OnceStatus.Replayed, again.Status);
        Assert.Null(again.Value);
        Assert.Equal(first.Answer!.Body, again.Answer!.Body);
        Assert.Equal((200, "text/plain"), (again.Answer.Status, again.Answer.ContentType));
        Assert.Equal((1, 1), temp.Store.Herds.Counts(temp.Herd));
    }

    [Fact]
    public async Task Submit_SameKeyOtherBody_IsAConflictAndDoesNothing()
    {
        await using var temp = await TempStore.WithHerd();
        await Submit(temp, "k", Body, "2026-07-01 oestrus id o-1");
        var other = await Submit(temp, "k", [9], "2026-07-02 oestrus id o-2");
        Assert.Equal(OnceStatus.Conflict, other.Status);
        Assert.Null(other.Answer);
        Assert.Equal((1, 1), temp.Store.Herds.Counts(temp.Herd));
        await Assert.ThrowsAsync<IdempotencyConflictException>(() => temp.Store.Facts.Append(
            temp.Herd, [Drafts.Of("1", "2026-07-02 oestrus id o-2")], TempStore.Noon, new IdempotencyRecord("app", "k", [9])));
    }

    [Fact]
    public async Task Append_SameKeyAndBody_GivesTheSameAnswers()
    {
        await using var temp = await TempStore.WithHerd();
        var record = new IdempotencyRecord("app", "k", Body);
        var first = await temp.Store.Facts.Append(temp.Herd, [Drafts.Of("1", "2026-07-02 oestrus id o-2")], TempStore.Noon, record);
        var again = await temp.Store.Facts.Append(temp.Herd, [Drafts.Of("1", "2026-07-02 oestrus id o-2")], TempStore.Noon, record);
        Assert.Equal(AppendStatus.Accepted, again[0].Status);
        Assert.Equal(first, again);
    }

    [Fact]
    public async Task Keys_of_two_callers_and_of_two_herds_are_two_keys()
    {
        await using var temp = await TempStore.WithHerd();
        var south = await temp.Store.Herds.Put(new LocationKey("herd", "south"), "South", "UTC", TempStore.Noon);
        await Submit(temp, "k", Body, "2026-07-01 oestrus id o-1");
        Assert.Equal(OnceStatus.Done, (await Submit(temp, "k", [9], "2026-07-01 oestrus id o-2", caller: "other")).Status);
        Assert.Equal(OnceStatus.Done, (await Submit(temp, "k", [9], "2026-07-01 oestrus id o-3", herd: south)).Status);
    }

    [Theory]
    [InlineData(7 * 24, OnceStatus.Replayed)]
    [InlineData((7 * 24) + 1, OnceStatus.Done)]
    public async Task An_answer_is_kept_for_seven_days(int hours, OnceStatus expected)
    {
        await using var temp = await TempStore.WithHerd();
        await Submit(temp, "k", Body, "2026-07-01 oestrus id o-1");
        var later = await Submit(temp, "k", Body, "2026-07-01 oestrus id o-1", now: TempStore.Noon + Duration.FromHours(hours));
        Assert.Equal(expected, later.Status);
    }

    [Fact]
    public async Task A_request_that_failed_keeps_no_answer()
    {
        await using var temp = await TempStore.WithHerd();
        var submission = new Submission([Drafts.Of("1", "2026-07-01 oestrus id o-1")], []);
        await Assert.ThrowsAsync<FormatException>(() => temp.Store.Facts.Submit(
            temp.Herd, submission, TempStore.Noon, new IdempotencyRecord("app", "k", Body), _ => throw new FormatException()));
        Assert.Equal((0, 0), temp.Store.Herds.Counts(temp.Herd));
        Assert.Equal(OnceStatus.Done, (await Submit(temp, "k", Body, "2026-07-01 oestrus id o-1")).Status);
    }

    [Fact]
    public async Task Sixteen_at_once_with_one_key_are_done_once_and_answered_alike()
    {
        await using var temp = await TempStore.WithHerd();
        var all = await Task.WhenAll(Enumerable.Range(0, 16).Select(i => Task.Run(() => Submit(temp, "k", Body, $"2026-07-01 oestrus id o-{i}"))));
        Assert.Single(all, once => once.Status == OnceStatus.Done);
        Assert.Single(all.Select(once => Encoding.UTF8.GetString(once.Answer!.Body)).Distinct());
        Assert.Equal((1, 1), temp.Store.Herds.Counts(temp.Herd));
    }

    [Fact]
    public async Task The_other_writes_are_done_once_too()
    {
        await using var temp = await TempStore.WithHerd();
        var programme = Calendar.Programmes.Programme.Default;
        var fact = await temp.Post("1", "2026-07-01 oestrus id o-1");
        for (var i = 0; i < 2; i++)
        {
            var expected = i == 0 ? OnceStatus.Done : OnceStatus.Replayed;
            Assert.Equal(expected, (await temp.Store.Herds.Put(TempStore.NorthRidge, "New", "UTC", TempStore.Noon, Key("h"), _ => Text("h"))).Status);
            Assert.Equal(expected, (await temp.Store.Programmes.Save(temp.Herd, programme, false, "{}", "a", TempStore.Noon, Key("p"), v => Text($"{v}"))).Status);
            Assert.Equal(expected, (await temp.Store.Programmes.Approve(temp.Herd, 1, "a", null, TempStore.Noon, Key("a"), v => Text($"{v}"))).Status);
            Assert.Equal(expected, (await temp.Store.Facts.Withdraw(temp.Herd, fact.Id, "r", "a", TempStore.Noon, Key("w"), v => Text($"{v}"))).Status);
        }

        Assert.Single(Assert.Single(temp.Store.Programmes.List(temp.Herd, null)).Version.Approvals);
        Assert.Equal("New", temp.Store.Herds.Find(TempStore.NorthRidge)!.Name);

        static IdempotencyRecord Key(string key) => new("app", key, Body);
    }

    private static StoredAnswer Text(string text) => new(200, "text/plain", Encoding.UTF8.GetBytes(text));

    private static Task<Once<SubmissionAnswer>> Submit(
        TempStore temp, string key, byte[] body, string line, string caller = "app", Herd? herd = null, Instant? now = null) =>
        temp.Store.Facts.Submit(
            herd ?? temp.Herd,
            new Submission([Drafts.Of("1", line)], []),
            now ?? TempStore.Noon,
            new IdempotencyRecord(caller, key, body),
            // What it leaves is visible before it is committed.
            answer => Text($"{answer.Facts[0].Id} of {answer.History("1")!.Facts.Count} {FactKind.Oestrus}"));
}
