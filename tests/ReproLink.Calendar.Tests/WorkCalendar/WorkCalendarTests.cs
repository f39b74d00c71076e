using NodaTime.Text;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.TestSupport.Histories;
using ReproLink.TestSupport.Plans;

namespace ReproLink.Calendar.Tests.WorkCalendar;

/// <summary>The work calendar (5.9): lines, ids, totals.</summary>
public sealed class WorkCalendarTests
{
    private const string Asked = "2026-10-05T12:00:00Z";
    private static readonly HerdRules Rules = SavedProgrammes.Approved();

    private static readonly Cow Cow1042 = Cow.Of("card parity 1 pen 4 breed Holstein", "2026-07-01 calving", "2026-09-10 08:00 insemination");

    [Fact]
    public void A_fortnight_of_1042_shows_draw_dispatch_result_and_steps() => Assert.Equal(
        ["2026-10-05 step gnrh firm",
         "2026-10-08 draw firm",
         "2026-10-08 dispatch firm x1",
         "2026-10-09 resultexpected firm x1",
         "2026-10-12 step pgf conditional",
         "2026-10-14 step gnrh conditional",
         "2026-10-15 step inseminate conditional"],
        Lines(Make(Asked, "2026-10-05", "2026-10-18", Cow1042)));

    [Fact]
    public void Doses_and_needles_count_firm_and_conditional_ahead_and_firm_only_on_the_day()
    {
        DayTotals On(string knownAt, string day) => Make(knownAt, day, day, Cow1042).Totals.Single();

        var ahead = On(Asked, "2026-10-12");
        Assert.Equal((1, 1, 0, 1), (ahead.Animals, ahead.Doses[StepKind.Pgf], ahead.Tubes, ahead.Needles));
        // On the day, without a result, nothing may be given.
        var held = On("2026-10-12T12:00:00Z", "2026-10-12");
        Assert.False(held.Doses.ContainsKey(StepKind.Pgf));
        var draw = On(Asked, "2026-10-08");
        Assert.Equal((1, 1, 1), (draw.Animals, draw.Tubes, draw.Needles));
        Assert.Equal(0, On(Asked, "2026-10-15").Needles);
    }

    [Fact]
    public void An_insert_is_a_dose_without_a_needle_and_its_removal_neither()
    {
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("p4-ovsynch-56"));
        var totals = Make(Asked, "2026-10-05", "2026-10-12", rules, Cow1042).Totals;
        var start = totals.Single(t => t.Date == Cow.Day("2026-10-05"));
        Assert.Equal((1, 1, 1), (start.Doses[StepKind.Gnrh], start.Doses[StepKind.InsertIn], start.Needles));
        Assert.Equal(1, totals.Single(t => t.Date == Cow.Day("2026-10-12")).Needles);
    }

    [Fact]
    public void Ids_stay_when_a_correction_dates_the_work_anew_and_none_occurs_twice()
    {
        var moved = Cow.Of("card parity 1 pen 4 breed Holstein", "2026-07-01 calving", "2026-09-17 08:00 insemination");
        var before = Make(Asked, "2026-09-01", "2026-12-31", Cow1042).Items;
        var after = Make(Asked, "2026-09-01", "2026-12-31", moved).Items;
        Assert.Equal(before.Count, before.Select(i => i.Id).Distinct().Count());
        Assert.Equal(Steps(before).Select(i => i.Id), Steps(after).Select(i => i.Id));
        Assert.NotEqual(Steps(before).Select(i => i.Date), Steps(after).Select(i => i.Date));
    }

    [Fact]
    public void The_line_of_an_insert_keeps_its_id_when_it_falls_due()
    {
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("p4-ovsynch-56"));
        string Id(string knownAt) => Make(knownAt, "2026-10-12", "2026-10-12", rules, Cow1042).Items.Single(i => i.Step == StepKind.InsertOut).Id;
        Assert.Equal(Id("2026-10-01T12:00:00Z"), Id("2026-10-10T12:00:00Z"));
    }

    [Fact]
    public void An_insert_not_recorded_out_is_listed_on_its_day_and_again_today()
    {
        var rules = SavedProgrammes.Approved(p => p.Resynchronised("p4-ovsynch-56"));
        var pregnant = Cow1042.With("2026-10-08 blood pregnant reported 2026-10-09T22:00:00Z");
        var items = Make("2026-10-14T12:00:00Z", "2026-10-01", "2026-10-20", rules, pregnant).Items.Where(i => i.Step == StepKind.InsertOut).ToList();
        Assert.Equal([Cow.Day("2026-10-12"), Cow.Day("2026-10-14")], items.Select(i => i.Date));
        Assert.All(items, i => Assert.Equal(StepState.Firm, i.State));
        Assert.DoesNotContain(Make("2026-10-14T12:00:00Z", "2026-10-01", "2026-10-20", rules, pregnant.With("2026-10-09 treatment insert-out")).Items,
            i => i is { Step: StepKind.InsertOut, State: not (StepState.Done or StepState.Cancelled) });
    }

    [Fact]
    public void Cancelled_lines_are_shown_only_when_asked_for()
    {
        var pregnant = Cow1042.With("2026-10-08 blood pregnant reported 2026-10-09T22:00:00Z");
        Assert.DoesNotContain(Make("2026-10-10T12:00:00Z", "2026-10-01", "2026-10-20", pregnant).Items, i => i.State == StepState.Cancelled);
        var all = WorkCalendars.Make(
            [pregnant.On(Cow.Day("2026-10-10"), Rules, At("2026-10-10T12:00:00Z"))], Rules,
            new WorkQuery(Cow.Day("2026-10-01"), Cow.Day("2026-10-20")) { IncludeCancelled = true }, Cow.Day("2026-10-10"), At("2026-10-10T12:00:00Z"));
        Assert.Equal(3, all.Items.Count(i => i.State == StepState.Cancelled));
    }

    [Fact]
    public void A_pregnant_cow_has_confirmation_dry_off_and_calving()
    {
        var pregnant = Cow1042.With("2026-10-08 blood pregnant reported 2026-10-09T22:00:00Z");
        Assert.Equal(
            ["2026-11-23 confirmation firm", "2027-04-17 dryoff firm", "2027-06-16 calvingdue firm"],
            Lines(Make("2026-10-12T12:00:00Z", "2026-10-13", "2027-06-30", pregnant)).Where(l => !l.Contains("dispatch", StringComparison.Ordinal) && !l.Contains("result", StringComparison.Ordinal)));
        var dry = pregnant.With("2027-04-15 dry-off");
        Assert.Contains("2027-04-17 dryoff done", Lines(Make("2027-04-20T12:00:00Z", "2027-04-01", "2027-04-30", dry)));
        var doubtful = pregnant.With("2026-11-23 blood recheck");
        Assert.Contains("2027-06-16 calvingdue held", Lines(Make("2026-11-24T12:00:00Z", "2027-06-01", "2027-06-30", doubtful)));
    }

    [Fact]
    public void Prostaglandin_in_a_cow_not_known_open_is_an_alert_on_its_day_and_today()
    {
        var given = Cow1042.With("2026-10-06 treatment pgf");
        var alerts = Make("2026-10-09T12:00:00Z", "2026-10-01", "2026-10-20", given).Items.Where(i => i.Kind == WorkKind.Alert && i.Step is null).ToList();
        Assert.Equal([Cow.Day("2026-10-06"), Cow.Day("2026-10-09")], alerts.Select(i => i.Date).Distinct().Order());
    }

    [Fact]
    public void A_double_recheck_and_a_disagreement_ask_for_an_examination_today()
    {
        var twice = Cow1042.With("2026-10-08 blood recheck", "2026-10-15 blood recheck");
        Assert.Equal(["2026-10-15 examine firm", "2026-10-20 examine firm"], Lines(Make("2026-10-20T12:00:00Z", "2026-10-01", "2026-10-31", twice)).Where(l => l.Contains("examine", StringComparison.Ordinal)));
    }

    [Fact]
    public void Lines_are_in_order_of_day_time_pen_and_animal()
    {
        var items = Make(Asked, "2026-10-05", "2026-10-05",
            Cow1042 with { Name = "20" },
            Cow1042 with { Name = "3" },
            Cow.Named("7", 1, "card parity 1 pen 10", "2026-07-01 calving", "2026-09-10 insemination"),
            Cow.Named("8", 1, "card parity 1 pen 2", "2026-07-01 calving", "2026-09-10 insemination")).Items;
        Assert.Equal(["8", "3", "20", "7"], items.Where(i => i.Animal is not null).Select(i => i.Animal!.Animal));
    }

    [Fact]
    public void A_fact_about_one_animal_changes_no_line_of_another()
    {
        var other = Cow.Named("2000", 100, "card parity 1 pen 4", "2026-07-01 calving", "2026-09-10 insemination");
        IEnumerable<string> Others(params Cow[] herd) => Make("2026-10-09T12:00:00Z", "2026-09-01", "2026-12-31", herd).Items
            .Where(i => i.Animal?.Animal == "2000").Select(i => $"{i.Id} {i.Date} {i.State} {i.Clause}");
        Assert.Equal(Others(Cow1042, other), Others(Cow1042.With("2026-10-08 blood pregnant", "2026-10-09 insemination"), other));
    }

    [Fact]
    public void The_order_of_the_herd_is_irrelevant()
    {
        var other = Cow.Named("2000", 100, "card parity 1 pen 4", "2026-07-01 calving", "2026-09-10 insemination");
        Assert.Equal(Lines(Make(Asked, "2026-09-01", "2026-12-31", Cow1042, other)), Lines(Make(Asked, "2026-09-01", "2026-12-31", other, Cow1042)));
    }

    private static IEnumerable<WorkItem> Steps(IReadOnlyList<WorkItem> items) => items.Where(i => i.Kind == WorkKind.Step);

    private static WorkSchedule Make(string knownAt, string from, string to, params Cow[] herd) => Make(knownAt, from, to, Rules, herd);

    private static WorkSchedule Make(string knownAt, string from, string to, HerdRules rules, params Cow[] herd)
    {
        var asOf = rules.DayOf(At(knownAt));
        return WorkCalendars.Make([.. herd.Select(c => c.On(asOf, rules, At(knownAt)))], rules, new WorkQuery(Cow.Day(from), Cow.Day(to)), asOf, At(knownAt));
    }

    private static NodaTime.Instant At(string instant) => InstantPattern.General.Parse(instant).GetValueOrThrow();

    private static IEnumerable<string> Lines(WorkSchedule schedule) => schedule.Items.Select(i =>
        string.Join(' ', new[] { i.Date.ToString(), i.Kind.ToString().ToLowerInvariant(), i.Step?.ToString().ToLowerInvariant(), i.State.ToString().ToLowerInvariant(), i.Count is { } n ? $"x{n}" : null }.OfType<string>()));
}
