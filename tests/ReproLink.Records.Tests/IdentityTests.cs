using CsCheck;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records.Tests;

public sealed class IdentityTests
{
    private static readonly Instant Later = TempStore.Noon + Duration.FromHours(1);

    [Fact]
    public async Task Append_SameContentAgain_IsDuplicateAndStoresNothing()
    {
        await using var temp = await TempStore.WithHerd();
        var first = await temp.Post("1042", "2026-07-01 calving id c-1");
        var again = await temp.Post("1042", "2026-07-01 calving id c-1", Later);
        Assert.Equal(AppendStatus.Accepted, first.Status);
        Assert.Equal(new AppendAnswer(AppendStatus.Duplicate, first.Id), again);
        Assert.Equal((1, 1), temp.Store.Herds.Counts(temp.Herd));
        Assert.Equal(TempStore.Noon, temp.Store.Facts.Find(temp.Herd, first.Id)!.Fact.Recorded);
    }

    [Fact]
    public async Task Append_ResultWithoutReportInstantAgainLater_IsDuplicate()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Post("1042", "2026-10-01 blood open id r-1");
        Assert.Equal(AppendStatus.Duplicate, (await temp.Post("1042", "2026-10-01 blood open id r-1", Later)).Status);
        Assert.Equal(AppendStatus.Replaced, (await temp.Post("1042", "2026-10-01 blood open reported 2026-10-02T00:00:00Z id r-1", Later)).Status);
    }

    [Theory]
    [InlineData("1042", "2026-07-02 calving id c-1")]
    [InlineData("1043", "2026-07-01 calving id c-1")]
    [InlineData("1042", "2026-07-01 10:00 calving id c-1")]
    [InlineData("1042", "2026-07-01 arrival id c-1")]
    public async Task Append_OtherContent_ReplacesAtOneInstant(string animal, string line)
    {
        await using var temp = await TempStore.WithHerd();
        var first = await temp.Post("1042", "2026-07-01 calving id c-1");
        var second = await temp.Post(animal, line, Later);
        Assert.Equal(AppendStatus.Replaced, second.Status);
        Assert.NotEqual(first.Id, second.Id);
        var old = temp.Store.Facts.Find(temp.Herd, first.Id)!;
        var replacement = temp.Store.Facts.Find(temp.Herd, second.Id)!;
        Assert.Equal(Later, old.Withdrawn);
        Assert.Equal(Later, replacement.Fact.Recorded);
        Assert.Null(replacement.Withdrawn);
        Assert.Equal(second.Id, Assert.Single(temp.Store.Facts.List(temp.Herd, null, null, 10).Items).Fact.Id);
        Assert.Equal(2, temp.Store.Facts.List(temp.Herd, null, null, 10, includeWithdrawn: true).Items.Count);
    }

    [Fact]
    public async Task Append_AfterWithdrawal_IsAcceptedAsANewFact()
    {
        await using var temp = await TempStore.WithHerd();
        var first = await temp.Post("1042", "2026-07-01 calving id c-1");
        Assert.Equal(WithdrawStatus.Withdrawn, await temp.Store.Facts.Withdraw(temp.Herd, first.Id, "wrong cow", "anna", Later));
        Assert.Equal(WithdrawStatus.AlreadyWithdrawn, await temp.Store.Facts.Withdraw(temp.Herd, first.Id, "again", "anna", Later));
        Assert.Equal(WithdrawStatus.NotFound, await temp.Store.Facts.Withdraw(temp.Herd, new FactId(1), "none", "anna", Later));
        var second = await temp.Post("1042", "2026-07-01 calving id c-1", Later);
        Assert.Equal(AppendStatus.Accepted, second.Status);
        Assert.NotEqual(first.Id, second.Id);
        Assert.Equal("wrong cow", temp.Store.Facts.Find(temp.Herd, first.Id)!.WithdrawnReason);
    }

    [Fact]
    public async Task Append_ReplacedManyTimes_FindsTheLatest()
    {
        await using var temp = await TempStore.WithHerd();
        var ids = new HashSet<FactId>();
        for (var i = 0; i < 40; i++)
        {
            var answer = await temp.Post("1042", $"card pen {i} id a-1");
            Assert.Equal(i == 0 ? AppendStatus.Accepted : AppendStatus.Replaced, answer.Status);
            Assert.True(ids.Add(answer.Id));
            Assert.Equal(AppendStatus.Duplicate, (await temp.Post("1042", $"card pen {i} id a-1")).Status);
        }

        var standing = Assert.Single(temp.Store.Facts.List(temp.Herd, "1042", null, 10).Items);
        Assert.Equal("39", ((AnimalCard)standing.Fact).Pen);
    }

    [Fact]
    public async Task Append_SamePairTwiceInOneCall_KeepsTheLast()
    {
        await using var temp = await TempStore.WithHerd();
        var answers = await temp.Store.Facts.Append(
            temp.Herd,
            [Drafts.Of("1", "2026-07-01 calving id x"), Drafts.Of("1", "2026-07-03 calving id x"), Drafts.Of("1", "2026-07-03 calving id x")],
            TempStore.Noon);
        Assert.Equal([AppendStatus.Accepted, AppendStatus.Replaced, AppendStatus.Duplicate], answers.Select(a => a.Status));
        Assert.Equal((1, 1), temp.Store.Herds.Counts(temp.Herd));
    }

    [Fact]
    public async Task Ids_are_the_same_in_whatever_order_and_batches_facts_are_posted()
    {
        var random = new Random(7);
        var drafts = Enumerable.Range(0, 60)
            .Select(i => new FactDraft($"{i % 9}", Anything.Fact(Anything.FactTypes[i % 18], random, $"source {i % 3}", $"{i}")))
            .ToArray();
        var shuffle = Gen.Shuffle(drafts);
        await using var once = await TempStore.WithHerd();
        await once.Store.Facts.Append(once.Herd, drafts, TempStore.Noon);
        var expected = Ids(once);
        foreach (var order in shuffle.Array[5].Single())
        {
            await using var other = await TempStore.WithHerd();
            foreach (var part in order.Chunk(7))
            {
                await other.Store.Facts.Append(other.Herd, part, Later);
            }

            Assert.Equal(expected, Ids(other));
        }

        static (string, string)[] Ids(TempStore temp) =>
            [.. temp.Store.Facts.List(temp.Herd, null, null, 1000).Items.Select(f => (f.Fact.SourceId, f.Fact.Id.ToString())).Order()];
    }

    [Fact]
    public async Task A_collision_of_ids_inside_a_herd_is_resolved_and_both_facts_are_found()
    {
        await using var temp = await TempStore.WithHerd();
        var first = await temp.Post("1", "2026-07-01 calving id c-1");
        // Another identity gets the place in the file that c-2 would have.
        var taken = FactIdentity.Of("herd", "c-2", 0, 0);
        using (var raw = temp.Raw())
        {
            using var command = raw.CreateCommand();
            command.CommandText =
                $"""
                INSERT INTO fact SELECT herd, animal, day, kind, time, {taken.Value}, sequence, recorded, source, 'other', 0, code, number, value, words
                FROM fact WHERE fact = {first.Id.Value}
                """;
            command.ExecuteNonQuery();
        }

        var second = await temp.Post("2", "2026-07-02 calving id c-2");
        Assert.Equal(AppendStatus.Accepted, second.Status);
        Assert.Equal(FactIdentity.Of("herd", "c-2", 0, 1), second.Id);
        Assert.Equal(AppendStatus.Duplicate, (await temp.Post("2", "2026-07-02 calving id c-2")).Status);
        Assert.Equal("2", temp.Store.Facts.Find(temp.Herd, second.Id)!.Animal);
    }

    [Fact]
    public async Task Two_herds_with_the_same_names_share_nothing()
    {
        await using var temp = await TempStore.WithHerd();
        var other = await temp.Store.Herds.Put(new LocationKey("herd", "south"), "South", "Europe/Berlin", TempStore.Noon);
        var mine = await temp.Post("1042", "2026-07-01 calving id c-1");
        var theirs = (await temp.Store.Facts.Append(other, [Drafts.Of("1042", "2026-07-09 calving id c-1")], TempStore.Noon))[0];
        Assert.Equal(AppendStatus.Accepted, theirs.Status);
        Assert.Equal(mine.Id, theirs.Id);
        await temp.Store.Facts.Withdraw(other, theirs.Id, "gone", "x", TempStore.Noon);
        Assert.Null(temp.Store.Facts.Find(temp.Herd, mine.Id)!.Withdrawn);
        Assert.Empty(temp.Store.Facts.List(other, "1042", null, 10).Items);
        Assert.Empty(temp.Store.Views.Current(other, TempStore.Noon).Animals);
        Assert.Equal(Day.From(new LocalDate(2026, 7, 1)), temp.Store.Views.Current(temp.Herd, TempStore.Noon).Find("1042")!.LastCalving!.Day);
        Assert.All(temp.Store.Changes.After(other, null, 100).Items, c => Assert.True(c.Sequence > 1));
        Assert.DoesNotContain(temp.Store.Changes.After(other, null, 100).Items.Select(c => c.Sequence), temp.Store.Changes.After(temp.Herd, null, 100).Items.Select(c => c.Sequence).Contains);
    }
}
