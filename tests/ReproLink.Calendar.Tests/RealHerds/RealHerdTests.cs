using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.TestSupport;
using Xunit.Abstractions;

namespace ReproLink.Calendar.Tests.RealHerds;

/// <summary>The bleed list of every week of 2007 to 2009 for every real herd, and what must hold on all of them.</summary>
public sealed class RealHerdTests(ITestOutputHelper output)
{
    private static readonly Day FirstMonday = Day.From(new LocalDate(2007, 1, 1));
    private static readonly Day LastDay = Day.From(new LocalDate(2009, 12, 31));

    [SkippableFact]
    public void Every_week_of_three_years_lists_or_counts_every_animal_once_and_bleeds_none_too_soon()
    {
        var herds = Load();
        var (lists, listed, counted) = (0, 0, 0);
        foreach (var (name, herd) in herds)
        {
            for (var monday = FirstMonday; monday <= LastDay; monday += 7)
            {
                var states = RealHerds.Fold(herd, monday);
                var list = BleedLists.Make(states, RealHerds.Rules, monday, monday + 6, monday);
                var shown = list.Days.SelectMany(d => d.Animals.Select(a => a.State.Animal))
                    .Concat(list.NotListed.SelectMany(r => r.Animals.Select(a => a.Animal)))
                    .Order(StringComparer.Ordinal).ToList();
                var present = states.Where(s => s.Exists && s.Departure is null).Select(s => s.Animal).Order(StringComparer.Ordinal).ToList();
                Assert.True(present.SequenceEqual(shown), $"{name} {monday}: an animal is missing or there twice");
                foreach (var (day, line) in list.Days.SelectMany(d => d.Animals.Select(a => (d.Date, a))))
                {
                    NotTooSoon(herd, line, day);
                }

                lists++;
                listed += list.Days.Sum(d => d.Count);
                counted += list.NotListed.Sum(r => r.Animals.Count);
            }
        }

        output.WriteLine($"{lists} lists, {listed} animals listed, {counted} counted");
        Assert.Equal(12 * 157, lists);
        Assert.True(listed > 1_000, "real cows are served all the time: some must be listed");
    }

    // Law 1 from the raw facts: none is bled fewer than 28 days after any insemination since the last calving, or fewer than
    // 60 days after that calving.
    private static void NotTooSoon(IReadOnlyList<AnimalHistory> herd, BleedLine line, Day day)
    {
        var facts = WhileThere(line.State.History.Facts).Where(f => f.Day <= line.State.AsOf).ToList();
        var calved = facts.OfType<Calving>().Select(f => (Day?)f.Day).Max();
        var services = facts.OfType<Insemination>().Where(f => calved is not { } c || f.Day >= c).ToList();
        Assert.True(services.Count > 0, $"{line.State.Animal} {day}: listed without a service");
        Assert.All(services, s => Assert.True(day - s.Day >= 28, $"{line.State.Animal} {day}: {day - s.Day} days after the service of {s.Day}"));
        Assert.True(calved is not { } calving || day - calving >= 60, $"{line.State.Animal} {day}: {day - calved} days in milk");
        Assert.Contains(herd, h => h.Animal == line.State.Animal);
    }

    // Facts between a departure and the next arrival decide nothing (F4): cow FR000494 came back with a calving elsewhere.
    private static IEnumerable<Fact> WhileThere(IEnumerable<Fact> facts)
    {
        var away = false;
        foreach (var fact in facts)
        {
            away = fact is not Arrival && away;
            if (!away)
            {
                yield return fact;
            }

            away |= fact is Departure;
        }
    }

    [SkippableFact]
    public void ChangesOn_is_right_on_real_histories()
    {
        var checkedAnimals = 0;
        foreach (var herd in Load().Values)
        {
            for (var day = FirstMonday; day <= LastDay; day += 91)
            {
                foreach (var state in RealHerds.Fold(herd, day).Where(s => s.Exists))
                {
                    ChangesOnIsRight(state, day);
                    checkedAnimals++;
                }
            }
        }

        Assert.True(checkedAnimals > 5_000);
    }

    // Law 7: the same answer, need and overdue up to the day before; different on it; never changing = not within 120 days.
    private static void ChangesOnIsRight(AnimalState state, Day on)
    {
        var answer = TestWindows.Answer(state, RealHerds.Rules, on);
        var until = answer.ChangesOn ?? on + 120;
        for (var day = on; day < until; day += 1)
        {
            Assert.True(answer.Verdict.SameAs(TestWindows.Judge(state, RealHerds.Rules, day)), $"{state.Animal} {on}: differs on {day}, before {answer.ChangesOn}");
        }

        if (answer.ChangesOn is { } change)
        {
            Assert.False(answer.Verdict.SameAs(TestWindows.Judge(state, RealHerds.Rules, change)), $"{state.Animal} {on}: the same on {change}");
        }
    }

    [SkippableFact]
    public void What_real_records_contain_is_what_the_decision_record_says()
    {
        var herds = Load();
        var all = herds.Values.SelectMany(h => h).ToList();
        var (doubles, early, late) = (0, 0, 0);
        foreach (var history in all)
        {
            var trace = new FoldTrace();
            HistoryFold.Fold(history, RealHerds.Rules, Day.From(new LocalDate(2016, 12, 31)), RealHerds.KnownAt, trace);
            early += trace.Notes.Count(n => n.Reason.Rule == "T7 f");
            late += trace.Notes.Count(n => n.Reason.Rule == "F4");
            var services = history.Facts.OfType<Insemination>().Select(f => f.Day).ToList();
            doubles += services.Zip(services.Skip(1)).Count(p => p.Second - p.First is >= 0 and <= 3);
        }

        output.WriteLine($"{all.Count} animals, {doubles} inseminations at most 3 days after the one before, {early} calvings too soon after a service (T7 f), {late} facts that decide nothing (F4)");
        Assert.Equal((1_517, 85, 20, 5), (all.Count, doubles, early, late));
    }

    private static IReadOnlyDictionary<string, IReadOnlyList<AnimalHistory>> Load()
    {
        var path = CheckData.Find(RealHerds.File);
        Skip.If(path is null, $"The dated facts of real herds ({RealHerds.File}) are not on this machine.");
        return RealHerds.Load(path!);
    }
}
