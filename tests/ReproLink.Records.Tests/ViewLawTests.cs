using CsCheck;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Records.Tests;

/// <summary>Whatever is written, in whatever order: the cache equals a fresh read, and the past stays what was answered.</summary>
public sealed class ViewLawTests
{
    private const string Today = "2026-10-05";

    private static readonly string[] Lines =
    [
        "2026-07-01 calving", "2026-08-01 arrival", "2026-09-01 insemination", "2026-09-01 natural-service", "2026-09-20 oestrus",
        "2026-10-01 blood open", "2026-10-01 blood pregnant reported 2026-10-05T13:10:00Z", "2026-10-02 blood recheck", "2026-10-01 ultrasound pregnant",
        "2026-09-10 exposure until 2026-10-06", "card parity 1 pen 4", "2026-10-03 departure", "2026-10-06 calving", "2026-10-01 sample",
    ];

    [Fact]
    public async Task Cache_equals_a_fresh_read_and_the_past_equals_what_was_answered()
    {
        await Gen.Select(Gen.Int[0, 9], Gen.Int[0, 5], Gen.Int[0, Lines.Length - 1], Gen.Int[0, 7], Gen.Bool).Array[1, 25].SampleAsync(
            async steps =>
            {
                await using var temp = await TempStore.WithHerd();
                var answered = new List<HerdView>();
                var now = TempStore.Noon;
                foreach (var (what, animal, line, id, look) in steps)
                {
                    now += Duration.FromMinutes(7);
                    await Do(temp, what, $"{animal}", line, id, now);
                    await IsTheSameAlone(temp, [$"{animal}", $"{id}"], now);
                    if (look)
                    {
                        answered.Add(temp.Store.Views.Current(temp.Herd, now));
                        await using var fresh = temp.Open();
                        Assert.Equal(Text(fresh.Views.Current(temp.Herd, now)), Text(answered[^1]));
                    }
                }

                foreach (var view in answered)
                {
                    Assert.Equal(Text(view), Text(temp.Store.Views.At(temp.Herd, view.AsOf, view.KnownAt, now)));
                    foreach (var state in view.Animals)
                    {
                        var one = temp.Store.Views.AnimalAt(temp.Herd, state.Animal, view.AsOf, view.KnownAt, now)!;
                        Assert.Equal((state.Status, state.History.Facts.Count), (one.Status, one.History.Facts.Count));
                    }
                }
            },
            iter: 60, threads: 1);
    }

    // Read alone, beside whatever view is in memory, animals are what a fresh read of the whole herd says.
    private static async Task IsTheSameAlone(TempStore temp, string[] animals, Instant now)
    {
        var alone = temp.Store.Views.Some(temp.Herd, animals, now);
        await using var fresh = temp.Open();
        var whole = fresh.Views.Current(temp.Herd, now);
        Assert.Equal(Rules(whole.Rules), Rules(alone.Rules));
        Assert.Equal((whole.AsOf, whole.KnownAt), (alone.AsOf, alone.KnownAt));
        foreach (var animal in animals)
        {
            Assert.Equal(whole.Find(animal) is { } state ? Text(state.History) : "", alone.Find(animal) is { } history ? Text(history) : "");
        }
    }

    private static async Task Do(TempStore temp, int what, string animal, int line, int id, Instant now)
    {
        var draft = Drafts.Of(animal, $"{Lines[line]} source s{line % 2} id {id}");
        switch (what)
        {
            case 0 when temp.Store.Facts.List(temp.Herd, animal, null, 10).Items is [var fact, ..]:
                await temp.Store.Facts.Withdraw(temp.Herd, fact.Fact.Id, "wrong", "anna", now);
                break;
            case 1:
                await temp.Store.Held.Hold(temp.Herd, new HeldDraft(draft.Fact.Source, draft.Fact.SourceId, animal, null, HeldDraft.UnknownAnimal, $"{animal}{line}", draft), now);
                break;
            case 2:
                await temp.Store.Held.Hold(temp.Herd, new HeldDraft("lab", $"{id}", animal, null, "assay-unknown", $"{animal}{line}", null) { MayMean = [$"{id}"] }, now);
                break;
            case 3 when temp.Store.Held.Open(temp.Herd) is [var held, ..]:
                await temp.Store.Held.Dismiss(temp.Herd, held.HeldId, "no", "anna", now);
                break;
            case 4 when line < 4:
                await temp.Store.Programmes.Save(temp.Herd, Programme.Default with { InForceFrom = new Day(20_000 + id) }, draft: id == 0, "{}", "anna", now);
                break;
            case 5 when temp.Store.Programmes.List(temp.Herd, null).Count > 0:
                await temp.Store.Programmes.Approve(temp.Herd, 1, "vet", null, now);
                break;
            default:
                await temp.Store.Facts.Append(temp.Herd, [draft, Drafts.Of($"{id}", $"{Today} oestrus source t id {line}")], now);
                break;
        }
    }

    private static string Text(HerdView view) => string.Join(
        '\n',
        view.Animals.Select(a => $"{a.Animal} {a.Status} {a.Exists} {Text(a.History)}")
            .Prepend($"{view.Sequence} {view.AsOf} {view.KnownAt} {Rules(view.Rules)}"));

    private static string Text(AnimalHistory history) => $"[{string.Join(", ", history.Facts)}] held [{string.Join(", ", history.Held)}]";

    private static string Rules(HerdRules rules) => $"versions {string.Join(", ", rules.Versions.Select(v => $"{v.Number} approved {v.Approvals.Count}"))}";
}
