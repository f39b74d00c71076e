using NodaTime;
using NodaTime.Text;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Figures;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Tests.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures;

/// <summary>The invented herd of thirteen cows whose every figure was worked by hand.</summary>
internal static class ExampleHerd
{
    public static readonly HerdRules Rules = new(DateTimeZone.Utc, []);
    public static readonly Day Freeze = Day("2024-07-15");
    public static readonly Day FirstCycle = Day("2024-03-04");
    public static readonly Day LastCycle = Day("2024-05-26");

    private static readonly Instant Later = Instant.FromUtc(2025, 1, 1, 0, 0);

    public static Day Day(string date) => Calendar.Dates.Day.From(LocalDatePattern.Iso.Parse(date).GetValueOrThrow());

    /// <summary>Figures of the four cycles.</summary>
    public static FigureSet Cycles(string? detail = null) => Figures(FirstCycle, LastCycle, detail);

    /// <summary>Figures of everything that ever happened.</summary>
    public static FigureSet All(string? detail = null) => Figures(Day("2023-10-01"), Freeze, detail);

    /// <summary>Figures of everything, of a herd of one breed.</summary>
    public static FigureSet AllOf(string breed) => Figures(Day("2023-10-01"), Freeze, null, breed);

    private static FigureSet Figures(Day from, Day to, string? detail, string? breed = null) =>
        HerdFigures.Make(Cows(breed), Rules, new FigureQuestion(from, to) { WaitingPeriod = 50, Detail = detail }, Freeze, Later);

    /// <summary>The cows on the last day; of a breed, they have a card that says so.</summary>
    public static List<AnimalState> Cows(string? breed = null, HerdRules? rules = null)
    {
        var number = 0;
        return [.. CheckTable.Read("herd-example/herd_events.csv")
            .Select(row => (Cow: row["cow"], Fact: Fact(row["event"], Day(row["date"])) with { Id = new FactId(++number), SourceId = $"{number}" }))
            .GroupBy(e => e.Cow)
            .Select(cow => (Cow: cow.Key, Facts: cow.Select(e => e.Fact).Concat(Card(breed, cow.First().Fact.Day, ++number))))
            .Select(cow => HistoryFold.Fold(AnimalHistory.Of(cow.Cow, cow.Facts), rules ?? Rules, Freeze, Later))];
    }

    private static AnimalCard[] Card(string? breed, Day day, int number) =>
        breed is null ? [] : [new AnimalCard(day) { Breed = breed, Id = new FactId(number), SourceId = $"{number}" }];

    private static Fact Fact(string what, Day day) => what switch
    {
        "calved" => new Calving(day),
        "ai" => new Insemination(day),
        "test_positive" => new TestResult(day, TestMethod.Blood, Outcome.Pregnant),
        "test_negative" => new TestResult(day, TestMethod.Blood, Outcome.Open),
        "recheck_positive" => new Examination(day, TestMethod.Ultrasound, Outcome.Pregnant),
        "recheck_negative" => new Examination(day, TestMethod.Ultrasound, Outcome.Open),
        "do_not_breed" => new DoNotBreed(day),
        "left" => new Departure(day),
        _ => throw new FormatException($"no event {what}"),
    };
}
