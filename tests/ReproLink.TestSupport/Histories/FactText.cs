using System.Globalization;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.TestSupport.Histories;

/// <summary>
/// Facts as a domain person writes them, one a line: <c>2026-07-01 calving</c>, <c>2026-09-10 08:00 insemination</c>,
/// <c>2026-10-08 blood open reported 2026-10-09T15:00:00Z</c>, <c>card parity 1 pen 4</c>. Every fact may carry
/// <c>id NAME</c> (else its number), <c>source NAME</c> and <c>recorded INSTANT</c> (else noon of its day, UTC).
/// </summary>
public static class FactText
{
    private static readonly Day EarliestRecording = Day.From(new LocalDate(2000, 1, 1));

    /// <summary>Reads one line.</summary>
    /// <param name="line">The line.</param>
    /// <param name="number">Makes the fact's id; distinct within a herd.</param>
    public static Fact Parse(string line, int number)
    {
        var words = new Words(line);
        var day = words.TakeDay();
        var time = words.TakeTime();
        var id = words.Value("id") ?? number.ToString(CultureInfo.InvariantCulture);
        var source = words.Value("source") ?? "herd";
        var recorded = words.InstantValue("recorded");
        var kind = words.Take("the kind of fact");
        var fact = day is { } dated ? Dated(kind, dated, words) : Undated(kind, words);
        words.End();
        return fact with
        {
            Id = new FactId(number),
            Source = source,
            SourceId = id,
            Time = time,
            Recorded = recorded ?? (Day.Max(fact.Day, EarliestRecording).Date + new LocalTime(12, 0)).InUtc().ToInstant(),
        };
    }

    private static Fact Undated(string kind, Words words) => kind switch
    {
        "card" => Card(null, words),
        "confirm" => new Confirm(Day.Earliest, words.Value("of") ?? "herd", words.Take("the id confirmed")),
        _ => throw words.Wrong($"{kind} needs a date"),
    };

    private static Fact Dated(string kind, Day day, Words words) => kind switch
    {
        "card" => Card(day, words),
        "confirm" => new Confirm(day, words.Value("of") ?? "herd", words.Take("the id confirmed")) { Dated = true },
        "arrival" => new Arrival(day),
        "calving" => new Calving(day),
        "loss" => new Loss(day, words.Flag("examined")),
        "oestrus" => new Oestrus(day),
        "insemination" => new Insemination(day) { SireBreed = Breed(words, "sire-breed") },
        "natural-service" => new NaturalService(day) { SireBreed = Breed(words, "sire-breed") },
        "embryo-transfer" => new EmbryoTransfer(day, words.IntValue("age") ?? EmbryoTransfer.DefaultAgeDays) { EmbryoBreed = Breed(words, "breed") },
        "exposure" => new Exposure(day, words.DayValue("until")) { SireBreed = Breed(words, "sire-breed") },
        "sample" => new Sample(day) { Specimen = words.Value("specimen") },
        "blood" => Result(day, TestMethod.Blood, words),
        "milk" => Result(day, TestMethod.Milk, words),
        "ultrasound" => Examination(day, TestMethod.Ultrasound, words),
        "palpation" => Examination(day, TestMethod.Palpation, words),
        "treatment" => new Treatment(day, AgentOf(words), words.Flag("not-done")),
        "do-not-breed" => new DoNotBreed(day),
        "breed-again" => new BreedAgain(day),
        "dry-off" => new DryOff(day),
        "departure" => new Departure(day),
        _ => throw words.Wrong($"there is no kind of fact '{kind}'"),
    };

    private static AnimalCard Card(Day? dated, Words words)
    {
        var born = words.DayValue("born");
        return new AnimalCard(dated ?? born ?? Day.Earliest)
        {
            Dated = dated is not null,
            Born = born,
            Parity = words.IntValue("parity"),
            Breed = Breed(words, "breed"),
            Pen = words.Value("pen"),
        };
    }

    // A breed of two words is written with a hyphen: Brown-Swiss.
    private static string? Breed(Words words, string key) => words.Value(key)?.Replace('-', ' ');

    private static TestResult Result(Day day, TestMethod method, Words words) => new(day, method, TakeOutcome(words))
    {
        ReportedAt = words.InstantValue("reported"),
        Value = words.Value("value") is { } value ? double.Parse(value, CultureInfo.InvariantCulture) : null,
        Unit = words.Value("unit"),
        Assay = words.Value("assay"),
    };

    private static Examination Examination(Day day, TestMethod method, Words words) =>
        new(day, method, TakeOutcome(words) ?? throw words.Wrong("an examination needs an outcome"))
        {
            ReportedAt = words.InstantValue("reported"),
            CameAsResult = words.Flag("as-result"),
        };

    private static Outcome? TakeOutcome(Words words) =>
        words.Flag("open") ? Outcome.Open
        : words.Flag("pregnant") ? Outcome.Pregnant
        : words.Flag("recheck") ? Outcome.Recheck
        : words.Flag("invalid") ? Outcome.Invalid
        : null;

    private static Agent AgentOf(Words words) => words.Take("the agent") switch
    {
        "gnrh" => Agent.Gnrh,
        "pgf" => Agent.Pgf,
        "insert-in" => Agent.InsertIn,
        "insert-out" => Agent.InsertOut,
        var other => throw words.Wrong($"there is no agent '{other}'"),
    };
}
