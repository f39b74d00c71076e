using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Tests.Generators;
using ReproLink.Calendar.Tests.Laws;
using static ReproLink.Calendar.Tests.Oracle.OracleHerd;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>The oracle itself, held against cases worked out by hand.</summary>
public sealed class OracleChecks
{
    [Theory]
    [InlineData("2024-02-28", "not-yet", "T1")]
    [InlineData("2024-02-29", "eligible", "first-test")]
    public void Cow_served_on_1_February_2024_is_first_bled_on_leap_day(string on, string answer, string reason)
    {
        var answered = Answer(on, Card(1), new Calving(D("2023-10-01")), new Insemination(D("2024-02-01")));
        Assert.Equal((answer, reason, "first-test"), (answered!.Answer, answered.Reason, answered.Need));
    }

    [Theory]
    [InlineData("2024-04-29", "not-yet", "T2")]
    [InlineData("2024-04-30", "eligible", "first-test")]
    public void Day_59_in_milk_is_refused_and_day_60_is_not(string on, string answer, string reason)
    {
        var answered = Answer(on, Card(1), new Calving(D("2024-03-01")), new Insemination(D("2024-04-01")));
        Assert.Equal((answer, reason), (answered!.Answer, answered.Reason));
    }

    [Theory]
    [InlineData("2024-04-29", "awaiting-test")]
    [InlineData("2024-04-30", "pregnant-caution")]
    [InlineData("2024-05-29", "pregnant-caution")]
    [InlineData("2024-05-30", "pregnant")]
    public void Pregnant_counts_with_caution_from_day_60_to_day_89_in_milk(string sampled, string status) =>
        Assert.Equal(status, Seen("2024-06-30", Card(1), new Calving(D("2024-03-01")), new Insemination(D("2024-04-01")),
            Blood(sampled, Outcome.Pregnant)).Shown);

    [Fact]
    public void Cow_bred_at_45_days_and_found_pregnant_at_73_days_in_milk_is_pregnant_with_caution()
    {
        Fact[] facts = [Card(1), new Calving(D("2024-03-01")), new Insemination(D("2024-04-15")), Blood("2024-05-13", Outcome.Pregnant)];
        Assert.Equal("pregnant-caution", Seen("2024-05-20", facts).Shown);
        Assert.Equal(("not-yet", "T2", "caution-retest"), Brief(Answer("2024-05-29", facts)));
        Assert.Equal(("eligible", "caution-retest", "caution-retest"), Brief(Answer("2024-05-30", facts)));
    }

    [Fact]
    public void Heifer_is_bled_on_day_28_without_a_calving() =>
        Assert.Equal(("eligible", "first-test", "first-test"), Brief(Answer("2024-06-29", Card(0), new Insemination(D("2024-06-01")))));

    [Theory]
    [InlineData(Outcome.Open, "awaiting-test")]
    [InlineData(Outcome.Pregnant, "pregnant")]
    public void Sample_on_day_31_of_one_service_and_day_11_of_another_speaks_of_the_first(Outcome outcome, string status)
    {
        var seen = Seen("2024-06-02", Card(0), new Insemination(D("2024-05-01")), new Insemination(D("2024-05-21")),
            Blood("2024-06-01", outcome));
        Assert.Equal(status, seen.Shown);
        if (outcome == Outcome.Pregnant)
            Assert.Equal(D("2024-05-01"), seen.DatedFrom);
    }

    [Theory]
    [InlineData(Outcome.Open, "awaiting-test")]
    [InlineData(Outcome.Pregnant, "pregnant")]
    public void Fourteen_days_after_the_bull_open_says_nothing_and_pregnant_counts(Outcome outcome, string status) =>
        Assert.Equal(status, Seen("2024-07-20", Card(0), new Exposure(D("2024-05-01"), D("2024-07-01")), Blood("2024-07-15", outcome)).Shown);

    [Theory]
    [InlineData("2024-06-28", "not-yet")]
    [InlineData("2024-06-29", "eligible")]
    public void Embryo_transfer_counts_from_the_oestrus(string on, string answer) =>
        Assert.Equal(answer, Answer(on, Card(0), new EmbryoTransfer(D("2024-06-08")))!.Answer);

    [Fact]
    public void Oestrus_on_day_45_of_a_pregnancy_is_a_conflict_and_a_sample_of_that_day_decides_nothing() =>
        Assert.Equal("b", Seen("2024-06-20", Card(0), new Insemination(D("2024-05-01")), Blood("2024-06-02", Outcome.Pregnant),
            new Oestrus(D("2024-06-15")), Blood("2024-06-15", Outcome.Open)).Conflicts);

    [Fact]
    public void Animal_1042_opens_and_closes_on_8_October_2026()
    {
        var window = Window("2026-10-05", Card(1), new Calving(D("2026-07-01")), new Insemination(D("2026-09-10")));
        var day = D("2026-10-08");
        Assert.Equal(new OracleAnswer("not-yet", "T1", "first-test", false, day, day), window.Answer(D("2026-10-05")));
        Assert.Equal(day, window.ChangesOn(D("2026-10-05")));
        Assert.Equal(D("2026-10-09"), window.ChangesOn(day));
        Assert.True(window.Answer(D("2026-10-09"))!.Overdue);
    }

    [Fact]
    public void Insemination_three_days_after_the_last_is_the_same_service_and_four_days_after_is_another()
    {
        var answered = Answer("2024-05-20", Card(0), new Insemination(D("2024-05-01")), new Insemination(D("2024-05-04")), new Insemination(D("2024-05-07")));
        Assert.Equal(D("2024-06-04"), answered!.Opens);
        // The `open` of day 28 after the first speaks of it alone: the second, one day short, awaits its own.
        Assert.Equal("awaiting-test", Seen("2024-06-10", Card(0), new Insemination(D("2024-05-01")), new Insemination(D("2024-05-05")),
            Blood("2024-05-29", Outcome.Open)).Shown);
    }

    [Fact]
    public void Two_rechecks_in_a_row_leave_only_an_examination_until_she_is_served_again()
    {
        Fact[] twice = [Card(0), new Insemination(D("2024-05-01")), Blood("2024-06-01", Outcome.Recheck), Blood("2024-06-08", Outcome.Recheck)];
        Assert.Equal(("blocked", "examination-due", "resample"), Brief(Answer("2024-06-20", twice)));
        Assert.Equal("recheck", Seen("2024-06-20", [.. twice, Blood("2024-06-18", Outcome.Open)]).Shown);
        Fact[] served = [.. twice, new Insemination(D("2024-06-12"))];
        Assert.Equal(D("2024-07-10"), Answer("2024-06-20", served)!.Opens);
        Assert.Equal("open", Seen("2024-07-12", [.. served, Blood("2024-07-10", Outcome.Open)]).Shown);
    }

    [Theory]
    [InlineData("2024-06-08", "conflict")]
    [InlineData("2024-06-09", "open")]
    public void Open_after_pregnant_wants_a_second_open_seven_days_later(string second, string status) =>
        Assert.Equal(status, Seen("2024-06-20", Card(0), new Insemination(D("2024-05-01")), Blood("2024-05-30", Outcome.Pregnant),
            Blood("2024-06-02", Outcome.Open), Blood(second, Outcome.Open)).Shown);

    [Fact]
    public void Results_of_one_day_that_disagree_are_ended_by_an_examination_only()
    {
        Fact[] facts = [Card(0), new Insemination(D("2024-05-01")), Blood("2024-06-01", Outcome.Open), Blood("2024-06-01", Outcome.Pregnant)];
        Assert.Equal(("blocked", "examination-due", "resolve-conflict"), Brief(Answer("2024-06-10", facts)));
        Assert.Equal("conflict", Seen("2024-07-01", [.. facts, Blood("2024-06-20", Outcome.Open)]).Shown);
        Assert.Equal("open", Seen("2024-07-01", [.. facts, new Examination(D("2024-06-20"), TestMethod.Ultrasound, Outcome.Open)]).Shown);
    }

    [Theory]
    [InlineData(199, "f")]
    [InlineData(259, "f")]
    [InlineData(260, "")]
    public void Calving_before_day_260_of_a_pregnancy_is_a_conflict(int days, string conflicts) =>
        Assert.Equal(conflicts, Seen("2025-06-20", Card(0), new Insemination(D("2024-05-01")), Blood("2024-06-01", Outcome.Pregnant),
            new Calving(D("2024-05-01") + days)).Conflicts);

    [Fact]
    public void Spoiled_sample_is_drawn_again_and_a_drawn_one_is_awaited_for_two_working_days()
    {
        Fact[] served = [Card(0), new Insemination(D("2024-05-01"))];
        var spoiled = Answer("2024-06-05", [.. served, Blood("2024-06-03", Outcome.Invalid)]);
        Assert.Equal(("eligible", "resample", "resample"), Brief(spoiled));
        Assert.Equal(D("2024-06-17"), spoiled!.Closes);
        // Drawn on Monday the 3rd, expected on Tuesday the 4th: overdue from Thursday the 6th.
        var drawn = Window("2024-06-03", [.. served, new Sample(D("2024-06-03"))]);
        Assert.Equal("awaiting-result", drawn.Answer(D("2024-06-05"))!.Reason);
        Assert.Equal("resample", drawn.Answer(D("2024-06-06"))!.Reason);
    }

    [Fact]
    public void Pgf_while_she_awaits_her_test_is_a_conflict_for_21_days()
    {
        var answered = Answer("2024-06-10", Card(0), new Insemination(D("2024-05-01")), new Treatment(D("2024-06-05"), Agent.Pgf, false));
        Assert.Equal(("not-yet", "resample", "resolve-conflict"), Brief(answered));
        Assert.Equal(D("2024-06-26"), answered!.Opens);
    }

    [Theory]
    [InlineData("2024-05-28", true)]
    [InlineData("2024-05-29", false)]
    public void Open_before_day_28_leaves_her_possibly_pregnant(string sampled, bool possible)
    {
        var facts = Told(Card(0), new Insemination(D("2024-05-01")), Blood(sampled, Outcome.Open));
        Assert.Equal(possible, PossiblyPregnant.On(facts, Defaults, D("2024-06-10"), NodaTime.Instant.MaxValue, D("2024-06-10")));
    }

    [Fact]
    public void Recheck_after_open_makes_her_possibly_pregnant_again()
    {
        var facts = Told(Card(0), new Insemination(D("2024-05-01")), Blood("2024-05-29", Outcome.Open), Blood("2024-06-02", Outcome.Recheck));
        Assert.True(PossiblyPregnant.On(facts, Defaults, D("2024-06-10"), NodaTime.Instant.MaxValue, D("2024-06-10")));
    }

    [Theory]
    [InlineData("2024-06-08", true)]
    [InlineData("2024-06-09", false)]
    public void One_open_after_pregnant_leaves_her_possibly_pregnant_and_a_second_7_days_later_does_not(string second, bool possible)
    {
        var facts = Told(Card(0), new Insemination(D("2024-05-01")), Blood("2024-05-30", Outcome.Pregnant),
            Blood("2024-06-02", Outcome.Open), Blood(second, Outcome.Open));
        Assert.Equal(possible, PossiblyPregnant.On(facts, Defaults, D("2024-06-20"), NodaTime.Instant.MaxValue, D("2024-06-20")));
    }

    [Fact]
    public void Random_animals_reach_every_status_answer_and_conflict()
    {
        var seen = new HashSet<string>();
        RandomAnimals.Single.Holds(
            herd =>
            {
                var facts = herd.Animals[0].Facts;
                var status = NaiveStatus.Of(facts, herd.Rules, herd.AsOf, herd.KnownAt);
                var answer = new NaiveWindow(facts, herd.Rules, herd.AsOf, herd.KnownAt).Answer(herd.AsOf);
                lock (seen)
                {
                    seen.Add(status.Shown);
                    seen.UnionWith(status.Conflicts.Select(c => "conflict " + c));
                    seen.UnionWith(answer is null ? [] : [answer.Answer, answer.Reason, "need " + answer.Need, "overdue " + answer.Overdue]);
                }
            },
            cases: 20_000);
        string[] wanted =
        [
            "not-served", "awaiting-test", "pregnant", "pregnant-caution", "open", "recheck", "conflict", "do-not-breed", "left",
            "T1", "T2", "T3", "T4", "resample", "confirmed-pregnant", "awaiting-result", "examination-due", "exposure-running",
            "need confirmation", "need caution-retest", "overdue True", .. "abcdefgh".Select(c => "conflict " + c),
        ];
        Assert.Empty(wanted.Except(seen));
    }

    private static (string, string, string?) Brief(OracleAnswer? answer) => (answer!.Answer, answer.Reason, answer.Need);
}
