using NodaTime;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Testing;

/// <summary>The worked example of the API guide, animal 1042, to the letter.</summary>
public sealed class ContractExampleTests
{
    private static readonly HerdRules Rules = new(DateTimeZoneProviders.Tzdb["America/Chicago"], []);

    private static readonly Cow Cow1042 = Cow.Of(
        "card born 2022-03-01 breed Holstein parity 1 pen 4",
        "2026-07-01 calving",
        "2026-09-10 08:00 insemination sire-breed Angus");

    private static AnimalState State => Cow1042.On(Cow.Day("2026-10-05"), Rules);

    [Fact]
    public void The_test_window_of_1042_on_5_October_is_the_published_one()
    {
        var answer = TestWindows.Answer(State, Rules, Cow.Day("2026-10-05"));

        Assert.Equal(AnimalStatus.AwaitingTest, answer.State.Status);
        Assert.Equal(
            (Answer.NotYet, AnswerReason.T1, Need.FirstTest, false),
            (answer.Verdict.Answer, answer.Verdict.Reason, answer.Verdict.Need, answer.Verdict.Overdue));
        var thatDay = Cow.Day("2026-10-08");
        Assert.Equal(new Window(thatDay, thatDay, thatDay), answer.Verdict.Window);
        Assert.Equal(thatDay, answer.ChangesOn);
    }

    [Fact]
    public void Her_opens_candidates_are_T1_and_T2_as_published()
    {
        var answer = TestWindows.Answer(State, Rules, Cow.Day("2026-10-05"));

        Assert.Equal(
            [("T1", Cow.Day("2026-10-08")), ("T2", Cow.Day("2026-08-30"))],
            answer.Candidates.Where(c => c.Bound == Bound.Opens).Select(c => (c.Rule, c.Date)));
    }

    [Fact]
    public void The_bleed_list_of_that_week_lists_her_on_Thursday_for_the_pgf_of_12_October()
    {
        var asOf = Cow.Day("2026-10-05");
        var list = BleedLists.Make([State], Rules, asOf, Cow.Day("2026-10-11"), asOf);

        var day = Assert.Single(list.Days);
        Assert.Equal(Cow.Day("2026-10-08"), day.Date);
        Assert.Equal((1, 3), (day.Count, day.Needles));
        Assert.Empty(list.NotListed);
        var line = Assert.Single(day.Animals);
        Assert.Equal((28, 99, 1), (line.State.DaysPostService(day.Date), line.State.DaysInMilk(day.Date), line.State.Parity));
        Assert.Equal(Need.FirstTest, line.Answer.Verdict.Need);
        Assert.False(line.Answer.Verdict.Overdue);
        Assert.Equal(new Window(day.Date, day.Date, day.Date), line.Answer.Verdict.Window);
        Assert.Equal(Cow.Day("2026-10-09"), line.Answer.ChangesOn);
        Assert.Equal(new ServedStep(StepKind.Pgf, Cow.Day("2026-10-12")), line.Serves);
        var reason = Assert.Single(line.Answer.Reasons);
        Assert.Equal(("T1", day.Date, "28 days after the service of 10 September 2026"), (reason.Rule, reason.Date, reason.Text));
        Assert.Equal(Cow1042.Facts[2].Id, Assert.Single(reason.Facts));
    }
}
