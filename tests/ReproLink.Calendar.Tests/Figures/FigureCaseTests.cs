using NodaTime;
using ReproLink.Calendar.Figures;
using ReproLink.Calendar.Programmes;
using ReproLink.TestSupport.Histories;

namespace ReproLink.Calendar.Tests.Figures;

/// <summary>The cases that would make a figure lie: unknown taken for open, doubt taken for loss, none taken for zero.</summary>
public sealed class FigureCaseTests
{
    private const string Calved = "2026-01-01 calving";
    private const string Served = "2026-03-10 insemination";

    private static FigureSet Make(string asOf, params Cow[] cows) => Make(asOf, null, cows);

    private static FigureSet Make(string asOf, string? detail, params Cow[] cows)
    {
        var day = Cow.Day(asOf);
        return HerdFigures.Make([.. cows.Select(c => c.On(day))], Cow.Defaults, new FigureQuestion(Cow.Day("2026-01-01"), Cow.Day("2026-12-31")) { Detail = detail }, day, Cow.Later);
    }

    private static string Line(FigureSet set, string figure, string line = "all")
    {
        var found = set[figure].Line(line)!;
        var value = found.Value is null ? found.NoValue : $"{found.Numerator}/{found.Denominator}";
        return string.Join(", ", found.LeftOut.Select(l => $"{l.Count} {LeftOutWords.Of(l.Reason)}").Prepend(value));
    }

    [Fact]
    public void Of_an_empty_herd_every_figure_is_there_and_none_has_a_value()
    {
        var set = HerdFigures.Make([], Cow.Defaults, new FigureQuestion(Cow.Day("2026-01-01"), Cow.Day("2026-12-31")), Cow.Day("2026-12-31"), Cow.Later);
        Assert.Equal(FigureBook.All.Select(d => d.Id), set.Figures.Select(f => f.Id));
        Assert.All(set.Figures.SelectMany(f => f.Lines), l => Assert.True(l.Value is null && l.NoValue is not null && l.Limits is null, $"{l.Key} {l.Value}"));
    }

    [Fact]
    public void A_service_that_awaits_its_answer_is_left_out_never_open()
    {
        var set = Make("2026-04-01", Cow.Of(Calved, Served));
        Assert.Equal("nothing to count, 1 no-answer-yet", Line(set, "conception-risk"));
        Assert.Equal("nothing to count, 1 no-answer-yet", Line(set, "services-per-conception", "found"));
        // Followed to the service and no further: nobody knows whether she was open after it.
        Assert.Equal("no cow was followed that long", Line(set, "days-to-pregnancy", "80"));
    }

    [Fact]
    public void A_recent_service_known_open_by_an_early_return_does_not_count_before_the_pregnant_can_be_known()
    {
        var cow = Cow.Of(Calved, Served, "2026-03-31 insemination");
        Assert.Equal("nothing to count, 1 no-answer-yet, 1 pending", Line(Make("2026-04-01", cow), "conception-risk"));
        Assert.Equal("0/1, 1 no-answer-yet", Line(Make("2026-04-20", cow), "conception-risk"));
    }

    [Fact]
    public void An_inconclusive_test_is_doubt_not_open()
    {
        var set = Make("2026-05-20", Cow.Of(Calved, Served, "2026-04-09 blood recheck"));
        Assert.Equal("nothing to count, 1 in-doubt", Line(set, "conception-risk"));
        Assert.Equal("1/1", Line(set, "inconclusive"));
        Assert.Equal("1/1", Line(set, "inconclusive-became", "undecided"));
    }

    [Fact]
    public void An_open_after_pregnant_that_nobody_confirmed_is_no_loss_yet()
    {
        var cow = Cow.Of(Calved, Served, "2026-04-20 blood pregnant", "2026-05-20 blood open");
        Assert.Equal("nothing to count, 1 not-rechecked", Line(Make("2026-05-22", cow), "loss", "early"));
        Assert.Equal("1/1", Line(Make("2026-06-10", cow.With("2026-06-01 blood open")), "loss", "early"));
        Assert.Equal("0/1", Line(Make("2026-06-10", cow.With("2026-06-01 ultrasound pregnant")), "loss", "early"));
    }

    [Fact]
    public void Protein_left_from_the_last_calf_is_no_pregnancy_and_no_loss()
    {
        // Found on day 70 in milk, with caution (T2); the retest from day 90 says open.
        var set = Make("2026-05-01", Cow.Of(Calved, "2026-02-05 insemination", "2026-03-12 blood pregnant", "2026-04-05 blood open"));
        Assert.Equal("0/1", Line(set, "conception-risk"));
        Assert.Equal("nothing to count", Line(set, "loss", "early"));
    }

    [Fact]
    public void A_calving_tells_which_service_it_was_whatever_was_found_before()
    {
        // Called open by blood and served again; she calved as if by the first.
        var cow = Cow.Of("2025-03-01 calving", "2025-05-10 insemination", "2025-06-12 blood open", "2025-06-20 insemination", "2026-02-15 calving");
        var figures = HerdFigures.Make([cow.On(Cow.Day("2026-03-01"))], Cow.Defaults, new FigureQuestion(Cow.Day("2025-01-01"), Cow.Day("2025-12-31")), Cow.Day("2026-03-01"), Cow.Later);
        Assert.Equal("1/1", Line(figures, "conception-risk", "first"));
        Assert.Equal("0/1", Line(figures, "conception-risk", "later"));
        Assert.Equal(70, figures["days-open"].Line("all")!.Value);
    }

    [Fact]
    public void With_a_bull_there_is_no_service_day_and_she_is_left_out()
    {
        var set = Make("2026-07-01", Cow.Of(Calved, "2026-03-10 exposure until 2026-04-10", "2026-05-20 blood pregnant"));
        Assert.Equal("nothing to count", Line(set, "conception-risk"));
        Assert.Equal("nothing to count, 1 with-bull", Line(set, "days-open"));
        Assert.Equal("nothing to count, 1 with-bull", Line(set, "pregnant-by-reached", "100"));
    }

    [Fact]
    public void Heifers_stand_apart()
    {
        var set = Make("2026-06-01", Cow.Of("card parity 0", Served, "2026-04-09 blood pregnant"));
        Assert.Equal("nothing to count", Line(set, "conception-risk"));
        Assert.Equal("1/1", Line(set, "conception-risk-heifers"));
        Assert.Equal("nothing to count", Line(set, "service-rate"));
    }

    [Fact]
    public void Recent_cycles_are_pending_and_in_no_total()
    {
        // The first cycle of March ends on the 21st; an answer to a service of that day is due by the end of April.
        var cow = Cow.Of(Calved, Served);
        var early = HerdFigures.Make([cow.On(Cow.Day("2026-04-15"))], Cow.Defaults, new FigureQuestion(Cow.Day("2026-03-01"), Cow.Day("2026-03-31")), Cow.Day("2026-04-15"), Cow.Later);
        Assert.True(early["pregnancy-rate"].Line("2026-03-01")!.Pending);
        Assert.Equal("nothing to count, 1 pending", Line(early, "service-rate"));
        var later = HerdFigures.Make([cow.On(Cow.Day("2026-05-15"))], Cow.Defaults, new FigureQuestion(Cow.Day("2026-03-01"), Cow.Day("2026-03-31")), Cow.Day("2026-05-15"), Cow.Later);
        Assert.False(later["pregnancy-rate"].Line("2026-03-01")!.Pending);
        Assert.Equal("1/1", Line(later, "service-rate"));
        Assert.Equal("nothing to count, 1 no-answer-yet", Line(later, "pregnancy-rate"));
    }

    [Theory]
    [InlineData("2026-04-10", 1)]
    [InlineData("2026-04-24", 1)]
    [InlineData("2026-04-25", 0)]
    public void An_examination_counts_for_agreement_up_to_14_days_after_the_sample(string examined, int pairs)
    {
        var set = Make("2026-06-01", Cow.Of(Calved, Served, "2026-04-10 blood open", $"{examined} ultrasound open"));
        Assert.Equal(pairs, set["agreement"].Line("agreeing")!.Denominator);
    }

    [Fact]
    public void Served_again_between_sample_and_examination_they_do_not_speak_of_the_same()
    {
        var set = Make("2026-06-01", Cow.Of(Calved, Served, "2026-04-10 blood open", "2026-04-12 insemination", "2026-04-20 ultrasound open"));
        Assert.Equal("nothing to count, 1 not-examined", Line(set, "agreement", "agreeing"));
    }

    [Fact]
    public void From_service_to_known_open_counts_to_the_day_of_the_report()
    {
        var cow = Cow.Of(Calved, Served, "2026-04-09 blood open reported 2026-04-11T15:00:00Z");
        Assert.Equal(32, Make("2026-05-01", cow)["service-to-open"].Line("to-known-open")!.Value);
        Assert.Equal("nothing to count, 1 not-served-again", Line(Make("2026-05-01", cow), "service-to-open", "to-next-service"));
        Assert.Equal(9, Make("2026-05-01", cow.With("2026-04-20 insemination"))["service-to-open"].Line("to-next-service")!.Value);
    }

    // Wanted on 11 April, a Saturday; drawn on Monday the 13th, reported on the 14th.
    [Theory]
    [InlineData("2026-04-13", "nothing to count, 1 pending")]
    [InlineData("2026-04-14", "32/1")]
    public void A_service_found_open_early_waits_for_those_of_its_day(string asOf, string toOpen)
    {
        var cow = Cow.Of(Calved, Served, "2026-04-09 blood open reported 2026-04-11T15:00:00Z");
        Assert.StartsWith(toOpen, Line(Make(asOf, cow), "service-to-open", "to-known-open"), StringComparison.Ordinal);
    }

    [Fact]
    public void Steps_are_told_by_what_was_recorded_and_withholding_is_no_omission()
    {
        var rules = new HerdRules(DateTimeZone.Utc,
        [
            new ProgrammeVersion(1, new Programme { InForceFrom = Cow.Day("2026-01-01"), Recording = Recording.Recorded }, Instant.FromUtc(2026, 1, 1, 0, 0),
                [new Approval("vet", Instant.FromUtc(2026, 1, 1, 0, 0), null)]),
        ]);
        // Ovsynch from Monday 6 April: GnRH 6th, prostaglandin 13th, GnRH 15th, insemination 16th.
        var cow = Cow.Of(Calved, Served, "2026-04-07 07:00 treatment gnrh", "2026-04-09 blood open", "2026-04-14 07:00 treatment pgf not-done");
        var day = Cow.Day("2026-05-20");
        var set = HerdFigures.Make([cow.On(day, rules)], rules, new FigureQuestion(Cow.Day("2026-04-06"), Cow.Day("2026-04-16")) { Detail = "steps" }, day, Cow.Later);
        Assert.Equal(1, set["steps"].Line("gnrh-late")!.Numerator);
        Assert.Equal(1, set["steps"].Line("pgf-not-done")!.Numerator);

        // Without an answer prostaglandin was held: nobody missed it.
        var waiting = Cow.Of(Calved, Served, "2026-04-06 07:00 treatment gnrh");
        var held = HerdFigures.Make([waiting.On(day, rules)], rules, new FigureQuestion(Cow.Day("2026-04-06"), Cow.Day("2026-04-16")), day, Cow.Later);
        Assert.Equal(0, held["steps"].Line("all-missed")!.Numerator);
        Assert.Contains(held["steps"].Line("all-missed")!.LeftOut, l => l.Reason == LeftOutReason.Withheld);
    }
}
