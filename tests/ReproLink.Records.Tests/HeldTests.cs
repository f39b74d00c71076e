using NodaTime;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;

namespace ReproLink.Records.Tests;

public sealed class HeldTests
{
    private static readonly Instant Later = TempStore.Noon + Duration.FromHours(1);

    [Fact]
    public async Task A_result_of_an_unknown_animal_is_appended_by_itself_when_she_appears()
    {
        await using var temp = await TempStore.WithHerd();
        var id = await Hold(temp, "lab-1", "1042", "2026-10-01 blood open source lab id lab-1");
        Assert.Matches("^h_[0-9a-z]{13}$", id);
        Assert.Equal(id, Assert.Single(temp.Store.Held.Open(temp.Herd)).HeldId);
        Assert.Empty(temp.Store.Views.Current(temp.Herd, TempStore.Noon).Animals);

        await temp.Post("9999", "2026-07-01 calving id c-0", Later);
        Assert.Single(temp.Store.Held.Open(temp.Herd));
        await temp.Post("1042", "2026-07-01 calving id c-1", Later);
        Assert.Empty(temp.Store.Held.Open(temp.Herd));
        var end = temp.Store.Held.Find(temp.Herd, id)!.End!;
        Assert.Equal((HeldEnding.Released, Later), (end.Ending, end.At));
        var result = Assert.IsType<TestResult>(temp.Store.Facts.Find(temp.Herd, end.Fact!.Value)!.Fact);
        Assert.Equal(("lab", "lab-1", Outcome.Open, Later), (result.Source, result.SourceId, result.Outcome, result.Recorded));
        Assert.Equal(AppendStatus.Duplicate, (await temp.Post("1042", "2026-10-01 blood open source lab id lab-1", Later)).Status);
    }

    [Fact]
    public async Task It_does_not_matter_whether_the_result_or_the_animal_came_first()
    {
        await using var resultFirst = await TempStore.WithHerd();
        await Hold(resultFirst, "lab-1", "1042", "2026-10-01 blood open source lab id lab-1");
        await resultFirst.Post("1042", "2026-07-01 calving id c-1");
        await using var animalFirst = await TempStore.WithHerd();
        await animalFirst.Post("1042", "2026-07-01 calving id c-1");
        // She appeared between the caller's look and the hold.
        await Hold(animalFirst, "lab-1", "1042", "2026-10-01 blood open source lab id lab-1");
        Assert.Empty(animalFirst.Store.Held.Open(animalFirst.Herd));
        Assert.Null(Anything.Difference(Facts(resultFirst), Facts(animalFirst)));

        static IEnumerable<Fact> Facts(TempStore temp) => temp.Store.Views.Current(temp.Herd, TempStore.Noon).Find("1042")!.History.Facts;
    }

    [Fact]
    public async Task A_held_result_is_a_notice_on_every_animal_it_may_mean_until_it_is_settled()
    {
        await using var temp = await TempStore.WithHerd();
        foreach (var animal in new[] { "1", "2", "3" })
        {
            await temp.Post(animal, $"2026-07-01 calving id c-{animal}");
        }

        Assert.All(temp.Store.Views.Current(temp.Herd, TempStore.Noon).Animals, a => Assert.Empty(a.History.Held));
        var draft = new HeldDraft("lab", "x", "1", "R1-1", "tube-animal-mismatch", "{}", null) { MayMean = ["1", "2"] };
        var id = await temp.Store.Held.Hold(temp.Herd, draft, TempStore.Noon);
        Assert.Equal(["1", "2"], Noticed(temp));
        Assert.Equal(draft.MayMean, temp.Store.Held.Find(temp.Herd, id)!.Draft.MayMean);

        var answer = await temp.Store.Held.Assign(temp.Herd, id, Drafts.Of("2", "2026-10-01 blood open source lab id x"), "anna", Later);
        Assert.Equal((HeldStatus.Settled, AppendStatus.Accepted), (answer.Status, answer.Fact!.Status));
        Assert.Empty(Noticed(temp));
        Assert.IsType<TestResult>(temp.Store.Views.Current(temp.Herd, Later).Find("2")!.History.Facts[^1]);
        Assert.Equal(HeldStatus.AlreadySettled, (await temp.Store.Held.Dismiss(temp.Herd, id, "no", "ben", Later)).Status);
        Assert.Equal(HeldStatus.NotFound, (await temp.Store.Held.Dismiss(temp.Herd, "h_0000000000000", "no", "ben", Later)).Status);
        Assert.Equal(HeldStatus.NotFound, (await temp.Store.Held.Dismiss(temp.Herd, "nonsense", "no", "ben", Later)).Status);
        Assert.Equal("anna", temp.Store.Held.Find(temp.Herd, id)!.End!.By);
        Assert.Equal(["1", "2"], temp.Store.Views.At(temp.Herd, null, TempStore.Noon, Later).Animals.Where(a => a.History.Held.Count > 0).Select(a => a.Animal));

        static string[] Noticed(TempStore temp) =>
            [.. temp.Store.Views.Current(temp.Herd, TempStore.Noon).Animals.Where(a => a.History.Held.Count > 0).Select(a => a.Animal)];
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_file_sent_twice_does_not_undo_a_persons_decision(bool assign)
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Post("1", "2026-07-01 calving id c-1");
        var id = await Hold(temp, "x", "9", "2026-10-01 blood open source lab id x");
        Assert.Equal(id, await Hold(temp, "x", "9", "2026-10-01 blood open source lab id x"));
        _ = assign
            ? await temp.Store.Held.Assign(temp.Herd, id, Drafts.Of("1", "2026-10-01 blood open source lab id x"), "anna", TempStore.Noon)
            : await temp.Store.Held.Dismiss(temp.Herd, id, "not ours", "anna", TempStore.Noon);
        Assert.Equal(id, await Hold(temp, "x", "9", "2026-10-01 blood open source lab id x"));
        Assert.Empty(temp.Store.Held.Open(temp.Herd));
        Assert.Equal(assign ? 2 : 1, temp.Store.Views.Current(temp.Herd, TempStore.Noon).Find("1")!.History.Facts.Count);
    }

    [Fact]
    public async Task A_result_corrected_to_an_animal_nobody_knows_no_longer_decides_about_the_first()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Post("1", "2026-07-01 calving id c-1");
        await temp.Post("1", "2026-09-01 insemination id s-1");
        await temp.Post("1", "2026-10-01 blood open source lab id x");
        Assert.Equal(AnimalStatus.Open, temp.Store.Views.Current(temp.Herd, Later).Find("1")!.Status);
        var id = await Hold(temp, "x", "9", "2026-10-01 blood open source lab id x", Later);
        Assert.Equal(AnimalStatus.AwaitingTest, temp.Store.Views.Current(temp.Herd, Later).Find("1")!.Status);

        // Sent a third time, right again: the held one is settled and the fact stands.
        Assert.Equal(AppendStatus.Accepted, (await temp.Post("1", "2026-10-01 blood open source lab id x", Later)).Status);
        Assert.Equal(HeldEnding.Replaced, temp.Store.Held.Find(temp.Herd, id)!.End!.Ending);
        Assert.Equal(AnimalStatus.Open, temp.Store.Views.Current(temp.Herd, Later).Find("1")!.Status);

        // And a fourth time wrong: held anew, not taken for the one that was settled.
        Assert.NotEqual(id, await Hold(temp, "x", "9", "2026-10-01 blood open source lab id x", Later));
        Assert.Single(temp.Store.Held.Open(temp.Herd));
    }

    [Fact]
    public async Task Other_content_under_the_same_id_takes_the_place_of_what_is_held()
    {
        await using var temp = await TempStore.WithHerd();
        var first = await Hold(temp, "x", "8", "2026-10-01 blood open source lab id x");
        var second = await Hold(temp, "x", "9", "2026-10-01 blood open source lab id x", Later);
        Assert.Equal(second, Assert.Single(temp.Store.Held.Open(temp.Herd)).HeldId);
        Assert.Equal(HeldEnding.Replaced, temp.Store.Held.Find(temp.Herd, first)!.End!.Ending);
        await temp.Post("8", "2026-07-01 calving id c-8", Later);
        Assert.Single(temp.Store.Views.Current(temp.Herd, Later).Find("8")!.History.Facts);
    }

    [Fact]
    public async Task A_held_draft_of_any_kind_is_appended_as_it_was_received()
    {
        await using var temp = await TempStore.WithHerd();
        var random = new Random(3);
        foreach (var type in Anything.FactTypes)
        {
            var fact = Anything.Fact(type, random, "lab", type.Name);
            await temp.Store.Held.Hold(temp.Herd, new HeldDraft("lab", type.Name, "9", null, HeldDraft.UnknownAnimal, "{}", new FactDraft("9", fact)), TempStore.Noon);
            var kept = temp.Store.Held.Open(temp.Herd).Single(h => h.Draft.SourceId == type.Name).Draft.Draft!;
            Assert.Null(Anything.Difference(fact, kept.Fact));
        }

        await temp.Post("9", "2026-07-01 calving id c-9");
        Assert.Empty(temp.Store.Held.Open(temp.Herd));
        Assert.Equal((1, 19), temp.Store.Herds.Counts(temp.Herd));
    }

    private static Task<string> Hold(TempStore temp, string sourceId, string animal, string line, Instant? now = null) => temp.Store.Held.Hold(
        temp.Herd,
        new HeldDraft("lab", sourceId, animal, null, HeldDraft.UnknownAnimal, $$"""{"animal":"{{animal}}"}""", Drafts.Of(animal, line)),
        now ?? TempStore.Noon);
}
