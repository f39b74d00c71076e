using NodaTime;
using NodaTime.Text;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;

namespace ReproLink.TestSupport.Histories;

/// <summary>One animal's history written as lines of <see cref="FactText"/>: <c>Cow.Of("card parity 1", "2026-07-01 calving")</c>.</summary>
public sealed record Cow(string Name, IReadOnlyList<Fact> Facts)
{
    /// <summary>The moment when everything on record is known.</summary>
    public static readonly Instant Later = Instant.FromUtc(2100, 1, 1, 0, 0);

    /// <summary>Rules of a herd that has saved no programme, in UTC.</summary>
    public static readonly HerdRules Defaults = new(DateTimeZone.Utc, []);

    /// <summary>A cow named 1042.</summary>
    public static Cow Of(params string[] facts) => Named("1042", 1, facts);

    /// <summary>A cow; her facts are numbered from <paramref name="firstNumber"/>.</summary>
    public static Cow Named(string name, int firstNumber, params IEnumerable<string> facts) =>
        new(name, [.. facts.Select((line, i) => FactText.Parse(line, firstNumber + i))]);

    /// <summary>The same cow with more facts.</summary>
    public Cow With(params string[] facts) =>
        this with { Facts = [.. Facts, .. facts.Select((line, i) => FactText.Parse(line, Facts.Count + 1 + i))] };

    /// <summary>A day written as a date.</summary>
    public static Day Day(string date) => ReproLink.Calendar.Dates.Day.From(LocalDatePattern.Iso.Parse(date).GetValueOrThrow());

    /// <summary>Her history as the engine takes it.</summary>
    public AnimalHistory History(Instant? knownAt = null) =>
        AnimalHistory.Of(Name, Facts.Where(f => f.Recorded <= (knownAt ?? Later)));

    /// <summary>Her state at the end of a day.</summary>
    public AnimalState On(Day asOf, HerdRules? rules = null, Instant? knownAt = null, FoldTrace? trace = null) =>
        HistoryFold.Fold(History(knownAt), rules ?? Defaults, asOf, knownAt ?? Later, trace);

    /// <summary>Her answer for a day, with the facts of that day.</summary>
    public WindowAnswer Answer(Day on, HerdRules? rules = null) => TestWindows.Answer(On(on, rules), rules ?? Defaults, on);

    /// <summary>Her answer for a day.</summary>
    public WindowAnswer Answer(string on, HerdRules? rules = null) => Answer(Day(on), rules);
}
