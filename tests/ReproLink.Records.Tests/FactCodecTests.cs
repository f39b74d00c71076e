using CsCheck;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records.Tests;

public sealed class FactCodecTests
{
    [Fact]
    public async Task Facts_of_every_kind_come_back_with_every_property()
    {
        await using var temp = await TempStore.WithHerd();
        var random = new Random(1);
        var drafts = Enumerable.Range(0, 40)
            .SelectMany(i => Anything.FactTypes.Select(type => new FactDraft($"cow {i}", Anything.Fact(type, random, "herd", $"{type.Name}-{i}"))))
            .ToArray();
        var answers = await temp.Store.Facts.Append(temp.Herd, drafts, TempStore.Noon);
        Assert.Equal(18 * 40, answers.Count);
        foreach (var (draft, answer) in drafts.Zip(answers))
        {
            var stored = temp.Store.Facts.Find(temp.Herd, answer.Id)!;
            Assert.Equal(draft.Animal, stored.Animal);
            Assert.Null(Anything.Difference(draft.Fact with { Id = answer.Id, Recorded = TempStore.Noon }, stored.Fact));
        }
    }

    [Fact]
    public void A_fact_that_differs_in_any_property_is_other_content() => Gen.Int[0, int.MaxValue].Sample(
        seed =>
        {
            var random = new Random(seed);
            var type = Anything.FactTypes[random.Next(Anything.FactTypes.Count)];
            var a = Anything.Fact(type, random, "s", "1");
            var b = Anything.Fact(type, random, "s", "1");
            return (FactEncoder.Encode(a) == FactEncoder.Encode(b)) == (Anything.Difference(a, b) is null);
        },
        iter: 5_000);

    [Fact]
    public async Task A_value_that_is_no_number_is_refused_and_not_stored_as_absent()
    {
        await using var temp = await TempStore.WithHerd();
        var draft = new FactDraft("1", new TestResult(new Day(20_000), TestMethod.Blood, null) { Source = "s", SourceId = "1", Value = double.NaN });
        await Assert.ThrowsAsync<ArgumentException>(() => temp.Store.Facts.Append(temp.Herd, [draft], TempStore.Noon));
        Assert.Equal((0, 0), temp.Store.Herds.Counts(temp.Herd));
    }
}
