using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.DayLoops;

/// <summary>Every day of a leap and a common year against a formula a person can check.</summary>
public sealed class ServiceDayTests
{
    private static readonly HerdRules Rules = NoProtocol();

    [Theory]
    [InlineData(2024, 366)]
    [InlineData(2026, 365)]
    public void T1_over_every_service_day_of_a_year_and_the_60_days_after_it(int year, int days)
    {
        var first = Cow.Day($"{year}-01-01");
        for (var served = first; served < first + days; served += 1)
        {
            var history = History(new Insemination(served));
            for (var after = 0; after <= 60; after++)
            {
                var state = HistoryFold.Fold(history, Rules, served + after, Cow.Later);
                var expected = after < 28 ? (Answer.NotYet, AnswerReason.T1, false) : (Answer.Eligible, AnswerReason.Need, after > 45);
                var verdict = TestWindows.Judge(state, Rules, served + after);
                Assert.True(expected == (verdict.Answer, verdict.Reason, verdict.Overdue), $"served {served}, day {after}: {verdict}");
            }
        }
    }

    [Fact]
    public void T2_and_T1_over_every_distance_of_service_and_asked_day()
    {
        var calved = Cow.Day("2024-01-15");
        for (var service = 0; service <= 70; service++)
        {
            var history = History(new Calving(calved), new Insemination(calved + service));
            var state = HistoryFold.Fold(history, Rules, calved + service, Cow.Later);
            for (var milk = service; milk <= 130; milk++)
            {
                var verdict = TestWindows.Judge(state, Rules, calved + milk);
                Assert.True(Expected(service, milk) == (verdict.Answer, verdict.Reason), $"served on day {service}, asked on day {milk}: {verdict}");
            }
        }
    }

    [Fact]
    public void T5_of_every_sample_day_after_service_and_every_outcome()
    {
        var served = Cow.Day("2026-09-10");
        foreach (var outcome in Enum.GetValues<Outcome>())
        {
            for (var after = 0; after <= 60; after++)
            {
                var result = new TestResult(served + after, TestMethod.Blood, outcome);
                var state = HistoryFold.Fold(History(new Insemination(served), result), Rules, served + after, Cow.Later);
                Assert.Equal(StatusAfter(outcome, after), state.Status);
            }
        }
    }

    // The later of day 28 after service and day 60 in milk; of a tie, T1.
    private static (Answer?, AnswerReason) Expected(int service, int milk) =>
        milk >= service + 28 && milk >= 60 ? (Answer.Eligible, AnswerReason.Need)
        : service + 28 >= 60 ? (Answer.NotYet, AnswerReason.T1)
        : (Answer.NotYet, AnswerReason.T2);

    private static AnimalStatus StatusAfter(Outcome outcome, int after) => outcome switch
    {
        Outcome.Open when after >= 28 => AnimalStatus.Open,
        Outcome.Pregnant when after >= 28 => AnimalStatus.Pregnant,
        Outcome.Recheck => AnimalStatus.Recheck,
        _ => AnimalStatus.AwaitingTest,
    };

    private static AnimalHistory History(params Fact[] facts) =>
        AnimalHistory.Of("1042", facts.Select((f, i) => f with { Id = new FactId(i + 1), Source = "herd", SourceId = $"{i}", Recorded = NodaTime.Instant.MinValue }));

    private static HerdRules NoProtocol()
    {
        var programme = Programme.Default with { Resynchronisation = new ResynchronisationChoice { Protocol = null } };
        return new HerdRules(NodaTime.DateTimeZone.Utc, [new ProgrammeVersion(1, programme, NodaTime.Instant.MinValue, [])]);
    }
}
