using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;

namespace ReproLink.Records.Tests;

public sealed class ViewTests
{
    private static readonly Instant Later = TempStore.Noon + Duration.FromHours(1);

    [Fact]
    public async Task Current_AfterAnAwaitedAppend_SeesItAndRefoldsOnlyThatAnimal()
    {
        await using var temp = await TempStore.WithHerd();
        foreach (var animal in new[] { "10", "4", "b2", "b10" })
        {
            await temp.Post(animal, $"2026-07-01 calving id c-{animal}");
        }

        var before = temp.Store.Views.Current(temp.Herd, TempStore.Noon);
        Assert.Equal(["4", "10", "b2", "b10"], before.Animals.Select(a => a.Animal));
        Assert.Same(before, temp.Store.Views.Current(temp.Herd, TempStore.Noon));
        await temp.Post("10", "2026-09-01 insemination id s-1");
        await temp.Post("5", "2026-09-01 calving id c-5");
        var after = temp.Store.Views.Current(temp.Herd, TempStore.Noon);
        Assert.Equal(["4", "5", "10", "b2", "b10"], after.Animals.Select(a => a.Animal));
        Assert.Equal(AnimalStatus.AwaitingTest, after.Find("10")!.Status);
        Assert.Equal(AnimalStatus.NotServed, before.Find("10")!.Status);
        foreach (var untouched in new[] { "4", "b2", "b10" })
        {
            Assert.Same(before.Find(untouched), after.Find(untouched));
        }

        Assert.Null(after.Find("11"));
    }

    [Fact]
    public async Task Current_WhenItsLastFactIsWithdrawn_HasTheAnimalNoMore()
    {
        await using var temp = await TempStore.WithHerd();
        var only = await temp.Post("1", "2026-07-01 calving id c-1");
        await temp.Post("2", "2026-07-01 calving id c-2");
        Assert.Equal(2, temp.Store.Views.Current(temp.Herd, TempStore.Noon).Animals.Count);
        await temp.Store.Facts.Withdraw(temp.Herd, only.Id, "never existed", "anna", TempStore.Noon);
        Assert.Equal(["2"], temp.Store.Views.Current(temp.Herd, TempStore.Noon).Animals.Select(a => a.Animal));
    }

    // A read that stands on a row when it returns must not hold its moment for whoever is given the connection next.
    [Fact]
    public async Task Reads_AfterAnyOtherRead_SeeWhatWasWrittenMeanwhile()
    {
        await using var temp = await TempStore.WithHerd();
        for (var i = 1; i <= 3; i++)
        {
            var fact = await temp.Post($"{i}", $"2026-07-01 calving id c-{i}");
            Assert.Equal((i, i), temp.Store.Herds.Counts(temp.Herd));
            Assert.Equal(i, temp.Store.Views.Current(temp.Herd, TempStore.Noon).Animals.Count);
            Assert.NotNull(temp.Store.Views.AnimalAt(temp.Herd, $"{i}", null, Later, Later));
            Assert.NotNull(temp.Store.Facts.Find(temp.Herd, fact.Id));
            Assert.Single(temp.Store.Facts.List(temp.Herd, $"{i}", null, 1).Items);
            Assert.True(temp.Store.IsHealthy());
            await temp.Store.Programmes.Save(temp.Herd, Calendar.Programmes.Programme.Default, draft: false, "{}", "anna", TempStore.Noon);
            Assert.Equal(i, temp.Store.Programmes.List(temp.Herd, null).Count);
        }
    }

    [Fact]
    public async Task At_BeforeAReplacementAndAfterIt_ShowsWhatWasKnown()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Post("1", "2026-07-01 calving id c-1", TempStore.Noon);
        await temp.Post("1", "2026-07-03 calving id c-1", Later);
        await temp.Post("2", "2026-07-03 calving id c-2", Later);
        Assert.Equal("2026-07-01", CalvedAsKnown(TempStore.Noon));
        Assert.Equal("2026-07-01", CalvedAsKnown(Later - Duration.FromTicks(1)));
        Assert.Equal("2026-07-03", CalvedAsKnown(Later));
        Assert.Null(CalvedAsKnown(TempStore.Noon - Duration.FromTicks(1)));
        Assert.Single(temp.Store.Views.At(temp.Herd, null, TempStore.Noon, Later).Animals);

        string? CalvedAsKnown(Instant knownAt)
        {
            var one = temp.Store.Views.AnimalAt(temp.Herd, "1", null, knownAt, Later)?.LastCalving?.Day.ToString();
            Assert.Equal(one, temp.Store.Views.At(temp.Herd, null, knownAt, Later).Find("1")?.LastCalving?.Day.ToString());
            return one;
        }
    }

    [Fact]
    public async Task A_result_reported_later_today_becomes_known_without_any_write()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Post("1", "2026-07-01 calving id c-1");
        await temp.Post("1", "2026-09-01 insemination id s-1");
        await temp.Post("1", "2026-10-01 blood open reported 2026-10-05T15:00:00Z id r-1");
        var report = Instant.FromUtc(2026, 10, 5, 15, 0);
        Assert.Equal(AnimalStatus.AwaitingTest, temp.Store.Views.Current(temp.Herd, report - Duration.FromTicks(1)).Find("1")!.Status);
        Assert.Equal(AnimalStatus.Open, temp.Store.Views.Current(temp.Herd, report).Find("1")!.Status);
    }

    [Fact]
    public async Task A_fact_of_tomorrow_counts_from_local_midnight_without_any_write()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Post("1", "2026-10-06 calving id c-1");
        // Chicago is five hours behind UTC on that day.
        var midnight = Instant.FromUtc(2026, 10, 6, 5, 0);
        Assert.False(temp.Store.Views.Current(temp.Herd, midnight - Duration.FromTicks(1)).Find("1")!.Exists);
        var view = temp.Store.Views.Current(temp.Herd, midnight);
        Assert.Equal(Day.From(new LocalDate(2026, 10, 6)), view.AsOf);
        Assert.True(view.Find("1")!.Exists);
    }

    [Fact]
    public async Task A_caller_whose_clock_is_behind_still_sees_what_was_appended()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Post("1", "2026-07-01 calving id c-1", Later);
        var view = temp.Store.Views.Current(temp.Herd, TempStore.Noon);
        Assert.Single(view.Animals);
        Assert.Equal(Later, view.KnownAt);
    }

    [Fact]
    public async Task Another_time_zone_changes_the_day()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Post("1", "2026-10-06 calving id c-1");
        Assert.False(temp.Store.Views.Current(temp.Herd, TempStore.Noon).Find("1")!.Exists);
        await Assert.ThrowsAsync<ArgumentException>(() => temp.Store.Herds.Put(TempStore.NorthRidge, "North Ridge", "Mars/Olympus", TempStore.Noon));
        var herd = await temp.Store.Herds.Put(TempStore.NorthRidge, "North Ridge", "Pacific/Kiritimati", TempStore.Noon);
        Assert.Equal(temp.Herd.Id, herd.Id);
        Assert.True(temp.Store.Views.Current(herd, TempStore.Noon).Find("1")!.Exists);
    }

    [Fact]
    public async Task Herds_not_asked_for_longest_are_let_go_and_read_again_when_asked_for()
    {
        await using var temp = await TempStore.WithHerd();
        await temp.Store.DisposeAsync();
        await using var store = Store.Open(temp.Path, new StoreOptions { MostFactsInMemory = 25 });
        var herds = new List<Herd>();
        for (var i = 0; i < 5; i++)
        {
            var herd = await store.Herds.Put(new LocationKey("herd", $"{i}"), $"{i}", "UTC", TempStore.Noon);
            await store.Facts.Append(herd, [.. Enumerable.Range(0, 10).Select(n => Drafts.Of($"{n}", $"2026-07-01 calving id {n}"))], TempStore.Noon);
            Assert.Equal(10, store.Views.Current(herd, TempStore.Noon).Animals.Count);
            Assert.InRange(store.Views.FactsInMemory, 10, 25);
            herds.Add(herd);
        }

        await store.Facts.Append(herds[0], [Drafts.Of("99", "2026-07-01 calving id 99")], TempStore.Noon);
        Assert.Equal(11, store.Views.Current(herds[0], TempStore.Noon).Animals.Count);
    }

    [Fact]
    public async Task Facts_of_one_day_are_in_fold_order_whatever_their_ids()
    {
        await using var temp = await TempStore.WithHerd();
        string[] lines =
        [
            "2026-09-01 natural-service id z", "2026-09-01 insemination id b", "2026-09-01 08:00 insemination id a", "2026-09-01 insemination id c",
            "2026-09-01 00:00 insemination id aa", "2026-09-01 blood open id y", "2026-09-01 sample id x", "2026-09-01 06:00 natural-service id w",
        ];
        foreach (var line in lines)
        {
            await temp.Post("1", line);
        }

        var facts = temp.Store.Views.Current(temp.Herd, TempStore.Noon).Find("1")!.History.Facts;
        Assert.Equal(facts.Order(FactOrder.Instance), facts);
        Assert.Equal(["aa", "b", "c", "z", "w", "a"], facts.Take(6).Select(f => f.SourceId));
    }
}
