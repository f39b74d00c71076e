using System.Collections.Concurrent;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Commands.Demo;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Records;
using Lists = ReproLink.Calendar.Testing.BleedLists;

namespace ReproLink.Api.Tests.Demo;

/// <summary>Whatever day the demo starts, this week shows every case the service knows.</summary>
public sealed class DemoHerdTests
{
    // Loaded once a day asked about: a view stays what it is.
    private static readonly ConcurrentDictionary<string, Lazy<Task<HerdView>>> Loads = new();

    public static TheoryData<string> Days =>
    [
        "2026-11-23T12:00:00Z", "2026-11-24T12:00:00Z", "2026-11-25T12:00:00Z", "2026-11-26T12:00:00Z", "2026-11-27T12:00:00Z",
        "2026-11-28T12:00:00Z", "2026-11-29T12:00:00Z",
        "2028-02-29T12:00:00Z", // leap day
        "2026-12-31T23:30:00Z", "2027-01-01T00:10:00Z", // around the year's end, minutes from midnight
        "2027-03-28T00:30:00Z", "2026-10-25T00:30:00Z", // clocks change
    ];

    [Theory]
    [MemberData(nameof(Days))]
    public async Task Every_case_occurs_this_week(string now)
    {
        var view = await Loaded(now);
        var today = view.AsOf;

        var week = Lists.Make(view.Animals, view.Rules, today, today + 6, today);
        var next = Lists.Make(view.Animals, view.Rules, today + 7, today + 13, today);

        Assert.Equal(Words<Need>(AnswerWords.Of), Distinct(week.Days.SelectMany(d => d.Animals).Select(a => AnswerWords.Of(a.Answer.Verdict.Need!.Value))));
        Assert.Equal(Words<AnimalStatus>(StatusWords.Of), Distinct(view.Animals.Select(a => StatusWords.Of(a.Status))));
        Assert.Equal("abcdefgh", string.Concat(view.Animals.SelectMany(a => a.Conflicts).Select(c => c.Letter).Distinct().Order()));
        Assert.Equal(
            ["blocked: examination-due", "blocked: exposure-running", "blocked: held-result",
             "not-needed: confirmed-pregnant", "not-needed: do-not-breed", "not-needed: not-served", "not-needed: open",
             "not-yet: T1", "not-yet: T2", "not-yet: T3", "not-yet: T4", "not-yet: planned-later", "not-yet: resample"],
            Reasons(week));
        // Three reasons cannot stand in a week's list that begins today: nothing is planned before it (planned-earlier), no result
        // is assumed to arrive, so what was sampled is planned again within the week (awaiting-result), and a herd without
        // sampling days lists nothing at all (no-sampling-day). The first two are a narrower or later list away.
        Assert.Contains("not-needed: planned-earlier", Reasons(next));
        Assert.Contains("not-needed: awaiting-result", Reasons(Lists.Make(view.Animals, view.Rules, today, today, today)));
        Assert.Contains(week.Days.SelectMany(d => d.Animals), a => a.Answer.Verdict.Overdue);
        Assert.Contains(week.Days.SelectMany(d => d.Animals), a => a.Serves is not null);
    }

    [Theory]
    [MemberData(nameof(Days))]
    public async Task Most_animals_are_ordinary_and_the_week_is_work_for_one_person(string now)
    {
        var view = await Loaded(now);
        var here = view.Animals.Where(a => a.Departure is null).ToArray();

        Assert.InRange(here.Length, 350, 450);
        Assert.InRange(here.Count(a => a.Status == AnimalStatus.Pregnant), here.Length * 30 / 100, here.Length * 60 / 100);
        Assert.InRange(here.Count(a => a.Conflicts.Count > 0), 8, 15);
        Assert.InRange(Lists.Make(view.Animals, view.Rules, view.AsOf, view.AsOf + 6, view.AsOf).Days.Sum(d => d.Count), 25, 90);
        Assert.All(view.Rules.Versions, v => Assert.NotEmpty(v.Approvals));
    }

    [Theory]
    [MemberData(nameof(Days))]
    public async Task The_cow_of_the_greeting_is_too_soon_after_service(string now)
    {
        var view = await Loaded(now);

        var answer = TestWindows.Answer(view.Find("1042")!, view.Rules, view.AsOf);

        Assert.Equal((Answer.NotYet, AnswerReason.T1), (answer.Verdict.Answer!.Value, answer.Verdict.Reason));
    }

    [Fact]
    public async Task Looked_at_as_it_was_known_earlier_it_knows_less()
    {
        using var folder = new TemporaryFolder();
        await using var store = Store.Open(folder.File);
        var view = await Load(store, "2026-11-25T12:00:00Z");

        var earlier = store.Views.At(view.Herd, null, view.KnownAt - Duration.FromDays(60), view.KnownAt);

        var facts = earlier.Animals.Sum(a => a.History.Facts.Count);
        Assert.InRange(facts, 1, view.Animals.Sum(a => a.History.Facts.Count) - 200);
    }

    private static Task<HerdView> Loaded(string now) => Loads.GetOrAdd(now, day => new(async () =>
    {
        using var folder = new TemporaryFolder();
        await using var store = Store.Open(folder.File);
        return await Load(store, day);
    })).Value;

    private static async Task<HerdView> Load(Store store, string text)
    {
        var now = InstantPattern.ExtendedIso.Parse(text).Value;
        return store.Views.Current(await new DemoHerd(store, now).Load(), now);
    }

    private static string[] Words<T>(Func<T, string> word)
        where T : struct, Enum => Distinct(Enum.GetValues<T>().Select(word));

    private static string[] Reasons(BleedList list) => Distinct(list.NotListed.Select(r => $"{AnswerWords.Of(r.Answer)}: {r.Reason}"));

    private static string[] Distinct(IEnumerable<string> words) => [.. words.Distinct().Order(StringComparer.Ordinal)];

    private sealed class TemporaryFolder : IDisposable
    {
        private readonly string _path = Directory.CreateTempSubdirectory("reprolink-herd-test-").FullName;

        public string File => Path.Combine(_path, "demo.db");

        public void Dispose() => Directory.Delete(_path, recursive: true);
    }
}
