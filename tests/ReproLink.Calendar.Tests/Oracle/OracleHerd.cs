using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>Short hand for the hand-checked cases of the oracle.</summary>
internal static class OracleHerd
{
    public static readonly HerdRules Defaults = Ruled(Programme.Default);

    /// <summary>GnRH, prostaglandin 7 days later: what the default programme's protocol begins with.</summary>
    private static readonly Protocol Ovsynch = new(
        "ovsynch-56", "Ovsynch-56", AnimalClass.DairyCow, ProtocolUse.Either,
        [
            new ProtocolStep("gnrh-1", StepKind.Gnrh) { Days = 0 },
            new ProtocolStep("pgf-1", StepKind.Pgf) { Anchor = "gnrh-1", Days = 7, Gated = true },
        ])
    {
        Source = "hand-made for these cases",
        Evidence = Evidence.CommonPractice,
    };

    public static HerdRules Ruled(Programme programme) => new(
        DateTimeZoneProviders.Tzdb["America/Chicago"], [new ProgrammeVersion(1, programme, Instant.MinValue, [])]);

    public static Day D(string date) => Day.From(NodaTime.Text.LocalDatePattern.Iso.Parse(date).Value);

    public static Instant Evening(Day day) => (day.Date + new LocalTime(20, 0)).InUtc().ToInstant();

    /// <summary>The facts, each recorded in the evening of its day; a sourceId counts them.</summary>
    public static List<Fact> Told(params Fact[] facts) =>
        [.. facts.Select((f, i) => f with { Source = "t", SourceId = $"{i:00}", Id = new FactId(i + 1), Recorded = Evening(Day.Max(f.Day, D("2000-01-01"))) })];

    public static AnimalCard Card(int? parity) => new(Day.Earliest) { Parity = parity };

    public static TestResult Blood(string day, Outcome outcome) => new(D(day), TestMethod.Blood, outcome);

    public static OracleStatus Seen(string asOf, params Fact[] facts) =>
        NaiveStatus.Of(Told(facts), Defaults, D(asOf), Instant.MaxValue);

    public static NaiveWindow Window(string asOf, params Fact[] facts) => Window(Defaults, asOf, facts);

    public static NaiveWindow Window(HerdRules rules, string asOf, params Fact[] facts) =>
        new(Told(facts), rules, D(asOf), Instant.MaxValue, id => id == "ovsynch-56" ? Ovsynch : null);

    public static OracleAnswer? Answer(string on, params Fact[] facts) => Window(on, facts).Answer(D(on));
}
