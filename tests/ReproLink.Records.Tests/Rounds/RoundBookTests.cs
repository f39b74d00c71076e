using Dapper;
using Microsoft.Data.Sqlite;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Records.Tests.Rounds;

public sealed class RoundBookTests
{
    private static readonly Day Monday = Day.From(new LocalDate(2026, 10, 5));

    private static RoundHand Hand(Instant? now = null) =>
        new("farm", now ?? TempStore.Noon, new Reply<RoundAnswer>(_ => new StoredAnswer(200, "application/json", []), null));

    private static RoundPlan Plan(params string[] animals) =>
        new(Monday, null, "serum", [.. animals.Select(a => new TubePlan(a, "1", "first-test", 31))]);

    private static TubeMarked Drawn(Instant? now = null) => new(now ?? TempStore.Noon, TubeState.Drawn, Monday) { Time = new LocalTime(6, 41), By = "Ana" };

    private static IEnumerable<Sample> Samples(TempStore temp, Instant? knownAt = null) => temp.Store.Views
        .At(temp.Herd, null, knownAt, TempStore.Noon + Duration.FromHours(9)).Animals.SelectMany(a => a.History.Facts).OfType<Sample>();

    private static async Task<RoundAnswer> Do(Task<Once<RoundAnswer>> write) => (await write).Value!;

    [Fact]
    public async Task Tube_ids_are_never_used_again_and_keep_their_animal()
    {
        await using var temp = await TempStore.WithHerd();
        var rounds = temp.Store.Rounds;
        Assert.Equal(["R1-001", "R1-002"], (await Do(rounds.Freeze(temp.Herd, Plan("1", "2"), Hand()))).Round!.Tubes.Select(t => t.Name));
        Assert.Equal(["R2-001"], (await Do(rounds.Freeze(temp.Herd, Plan("1"), Hand()))).Round!.Tubes.Select(t => t.Name));
        await Do(rounds.Redraw(temp.Herd, 1, 1, Hand()));
        await Do(rounds.Add(temp.Herd, 1, new TubePlan("3", null, null, null), Hand()));
        await temp.Reopen();
        Assert.Equal(["R1-001 1", "R1-002 2", "R1-003 1", "R1-004 3"], temp.Store.Rounds.Find(temp.Herd, 1)!.Tubes.Select(t => $"{t.Name} {t.Animal}"));
        Assert.Equal(1, temp.Store.Rounds.Find(temp.Herd, 1)!.Tubes[2].Redraws);
    }

    [Fact]
    public async Task A_drawn_tube_is_a_sample_as_long_as_it_holds_blood_and_the_past_is_kept()
    {
        await using var temp = await TempStore.WithHerd();
        await Do(temp.Store.Rounds.Freeze(temp.Herd, Plan("1"), Hand()));
        await Do(temp.Store.Rounds.Mark(temp.Herd, 1, 1, Drawn(), Hand()));
        var drawn = Assert.Single(Samples(temp));
        Assert.Equal(("round", "R1-001", "R1-001", "serum", null), (drawn.Source, drawn.SourceId, drawn.Tube, drawn.Specimen, drawn.Dispatched));
        var (left, broke) = (TempStore.Noon + Duration.FromHours(2), TempStore.Noon + Duration.FromHours(4));
        await Do(temp.Store.Rounds.Send(temp.Herd, 1, null, left, Monday, "Ana", Hand(left)));
        Assert.Equal(Monday, Assert.Single(Samples(temp)).Dispatched);
        await Do(temp.Store.Rounds.Mark(temp.Herd, 1, 1, new TubeMarked(broke, TubeState.Broken, Monday), Hand(broke)));
        Assert.Empty(Samples(temp));
        Assert.Equal(Monday, Assert.Single(Samples(temp, left)).Dispatched);
        Assert.Null(Assert.Single(Samples(temp, left - Duration.FromHours(1))).Dispatched);
    }

    [Fact]
    public async Task The_same_word_again_is_no_event()
    {
        await using var temp = await TempStore.WithHerd();
        await Do(temp.Store.Rounds.Freeze(temp.Herd, Plan("1"), Hand()));
        await Do(temp.Store.Rounds.Mark(temp.Herd, 1, 1, Drawn(), Hand()));
        var later = TempStore.Noon + Duration.FromHours(1);
        Assert.Equal(RoundStatus.Unchanged, (await Do(temp.Store.Rounds.Mark(temp.Herd, 1, 1, Drawn(later), Hand(later)))).Status);
        using var raw = temp.Raw();
        Assert.Equal(1, raw.ExecuteScalar<int>("SELECT count(*) FROM tube_event"));
    }

    [Fact]
    public async Task A_tube_that_left_can_only_break()
    {
        await using var temp = await TempStore.WithHerd();
        await Do(temp.Store.Rounds.Freeze(temp.Herd, Plan("1", "2"), Hand()));
        await Do(temp.Store.Rounds.Mark(temp.Herd, 1, 1, Drawn(), Hand()));
        Assert.Equal(RoundStatus.NoBlood, (await Do(temp.Store.Rounds.Send(temp.Herd, 1, [1, 2], TempStore.Noon, Monday, "Ana", Hand()))).Status);
        Assert.Null(Assert.Single(Samples(temp)).Dispatched);
        Assert.Equal(RoundStatus.Done, (await Do(temp.Store.Rounds.Send(temp.Herd, 1, [1], TempStore.Noon, Monday, "Ana", Hand()))).Status);
        Assert.Equal(RoundStatus.AlreadyDispatched, (await Do(temp.Store.Rounds.Redraw(temp.Herd, 1, 1, Hand()))).Status);
        Assert.Equal(RoundStatus.AlreadyDispatched, (await Do(temp.Store.Rounds.Mark(temp.Herd, 1, 1, Drawn() with { State = TubeState.Planned }, Hand()))).Status);
    }

    [Theory]
    [InlineData("round", "UPDATE round SET day = 1")]
    [InlineData("tube", "UPDATE tube SET animal = 'x'")]
    [InlineData("tube", "DELETE FROM tube")]
    [InlineData("tube_event", "DELETE FROM tube_event")]
    [InlineData("dispatch", "UPDATE dispatch SET at = 0")]
    [InlineData("received_batch", "DELETE FROM received_batch")]
    [InlineData("received_line", "UPDATE received_line SET raw = ''")]
    public async Task No_program_changes_or_removes_a_row_of_a_round_or_of_what_was_received(string table, string sql)
    {
        await using var temp = await TempStore.WithHerd();
        await Do(temp.Store.Rounds.Freeze(temp.Herd, Plan("1"), Hand()));
        await Do(temp.Store.Rounds.Mark(temp.Herd, 1, 1, Drawn(), Hand()));
        await Do(temp.Store.Rounds.Send(temp.Herd, 1, null, TempStore.Noon, Monday, "Ana", Hand()));
        await temp.Store.Facts.Submit(temp.Herd, Received(), TempStore.Noon);
        using var raw = temp.Raw();
        Assert.True(raw.ExecuteScalar<int>($"SELECT count(*) FROM {table}") > 0);
        Assert.Equal(1811, Assert.Throws<SqliteException>(() => raw.Execute(sql)).SqliteExtendedErrorCode);
    }

    [Fact]
    public async Task A_preview_answers_and_leaves_nothing()
    {
        await using var temp = await TempStore.WithHerd();
        var answer = await temp.Store.Facts.Preview(temp.Herd, Received(), TempStore.Noon, stored => (stored.Facts[0].Status, stored.History("1")!.Facts.Count));
        Assert.Equal((AppendStatus.Accepted, 1), answer);
        Assert.Empty(temp.Store.Views.Current(temp.Herd, TempStore.Noon).Animals);
        using var raw = temp.Raw();
        Assert.Equal(0, raw.ExecuteScalar<int>("SELECT (SELECT count(*) FROM fact) + (SELECT count(*) FROM animal) + (SELECT count(*) FROM received_line)"));
        var kept = await temp.Store.Facts.Submit(temp.Herd, Received(), TempStore.Noon);
        var line = Assert.Single(temp.Store.Received.List(temp.Herd, new ReceivedQuery { Fact = kept.Facts[0].Id }, null, 10).Items);
        Assert.Equal((3, "f.csv", "1;open", ReceivedDecision.Accepted), (line.Line, line.Name, line.Raw, line.Decision));
    }

    private static Submission Received() => new(
        [new FactDraft("1", new TestResult(Monday, TestMethod.Blood, Outcome.Open) { Source = "lab", SourceId = "1" })], [])
    {
        Received = new ReceivedBatch("lab", "farm", "f.csv", "text/csv", "Cow;Result", [new ReceivedLine(3, "1;open", "lab", "1") { Fact = 0 }]),
    };
}
