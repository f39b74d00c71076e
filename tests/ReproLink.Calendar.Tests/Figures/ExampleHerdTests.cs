using System.Globalization;
using System.Text.Json;
using NodaTime;
using ReproLink.Calendar.Figures;
using ReproLink.Calendar.Pregnancies;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Tests.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures;

/// <summary>
/// Every figure of the invented herd, against values worked by hand; its survival also by R survival 3.5.3.
/// </summary>
public sealed class ExampleHerdTests
{
    private static JsonElement Expected(string name) =>
        JsonDocument.Parse(File.ReadAllText(CheckTable.Path("herd-example/herd_expected.json"))).RootElement.GetProperty(name);

    [SkippableFact]
    public void Service_and_pregnancy_rate_of_every_cycle_with_the_cows_behind_them()
    {
        var (served, pregnant) = (ExampleHerd.Cycles("service-rate"), ExampleHerd.Cycles("pregnancy-rate"));
        foreach (var cycle in Expected("cycles").EnumerateArray())
        {
            var key = cycle.GetProperty("start").GetString()!;
            var (service, pregnancy) = (served["service-rate"].Line(key)!, pregnant["pregnancy-rate"].Line(key)!);
            Assert.False(service.Pending);
            Holds(service, cycle, "served", "eligible", "service_rate");
            Holds(pregnancy, cycle, "pregnant", "known", "pregnancy_rate");
            Assert.Equal(Cows(cycle, "eligible_cows"), Animals(service, CasePart.Counted, CasePart.NotCounted));
            Assert.Equal(Cows(cycle, "served_cows"), Animals(service, CasePart.Counted));
            Assert.Equal(Cows(cycle, "pregnant_cows"), Animals(pregnancy, CasePart.Counted));
            Assert.Equal(Cows(cycle, "unknown"), pregnancy.Cases.Where(c => c.Reason == LeftOutReason.Left).Select(c => c.Animal).ToArray());
        }
    }

    [SkippableFact]
    public void Service_and_pregnancy_rate_of_all_cycles_and_what_they_do_not_count()
    {
        var total = Expected("total");
        var set = ExampleHerd.Cycles("service-rate");
        Holds(set["service-rate"].Line("all")!, total, "served", "eligible", "service_rate", "service_rate_wilson");
        Holds(set["pregnancy-rate"].Line("all")!, total, "pregnant", "known", "pregnancy_rate", "pregnancy_rate_wilson");
        Assert.Equal(Cows(total, "not_counted_services"), Animals(set["service-rate"].Line("all")!, CasePart.LeftOut));
        // Cow D conceived in a cycle in which she has seven days to be served.
        Assert.Equal(1, Left(set["pregnancy-rate"].Line("all")!, LeftOutReason.FewEligibleDays));
        Assert.Equal(1, Left(set["pregnancy-rate"].Line("all")!, LeftOutReason.Left));
    }

    [SkippableFact]
    public void Conception_risk_of_all_first_and_later_services_and_of_the_four_cycles()
    {
        var all = ExampleHerd.All()["conception-risk"];
        Holds(all.Line("all")!, Expected("p_ai_all"), "pregnant", "known", "p_ai", "wilson");
        Holds(all.Line("first")!, Expected("p_ai_first"), "pregnant", "known", "p_ai", "wilson");
        Holds(all.Line("later")!, Expected("p_ai_second_plus"), "pregnant", "known", "p_ai", "wilson");
        Holds(ExampleHerd.Cycles()["conception-risk"].Line("all")!, Expected("p_ai_window"), "pregnant", "known", "p_ai", "wilson");
        // Cow G was sold without a diagnosis: left out, not counted as open.
        Assert.Equal(1, Left(all.Line("all")!, LeftOutReason.Left));
        Assert.Equal(22, all.Line("all")!.Denominator + 1);
    }

    [SkippableFact]
    public void Days_between_services()
    {
        var expected = Expected("intervals");
        var figure = ExampleHerd.All("service-intervals")["service-intervals"];
        Assert.Equal(expected.GetProperty("mean").GetDouble(), figure.Line("all")!.Value!.Value, 1e-9);
        Assert.Equal(expected.GetProperty("median").GetDouble(), figure.Line("all")!.Median!.Value, 1e-9);
        Assert.Equal(expected.GetProperty("double_inseminations").GetInt32(), figure.Line("up-to-3")!.Numerator);
        foreach (var count in expected.GetProperty("counts").EnumerateObject().Where(c => c.Name != "<=3"))
        {
            Assert.Equal(count.Value.GetInt32(), figure.Line(count.Name.Replace(">", "over-", StringComparison.Ordinal))!.Numerator);
        }

        Assert.Equal(expected.GetProperty("list").EnumerateArray().Select(i => (i[0].GetString()!, i[1].GetInt32())),
            figure.Line("all")!.Cases.Select(c => (c.Animal, c.Days!.Value)));
    }

    [SkippableFact]
    public void Pregnant_then_open_has_the_rechecked_as_denominator()
    {
        var expected = Expected("pregnancy_loss");
        var line = ExampleHerd.All("loss")["loss"].Line("early")!;
        Holds(line, expected, "lost", "rechecked", "risk", "wilson");
        Assert.Equal(Cows(expected, "lost_cows"), Animals(line, CasePart.Counted));
        Assert.Equal(expected.GetProperty("diagnosed").GetInt32(), line.Denominator + Left(line, LeftOutReason.NotRechecked));
    }

    [SkippableFact]
    public void Days_open_and_days_to_first_service()
    {
        var set = ExampleHerd.All("days-open");
        var (open, expected) = (set["days-open"].Line("all")!, Expected("days_open_pregnant_only"));
        Assert.Equal(expected.GetProperty("n").GetInt32(), open.Denominator);
        Assert.Equal(expected.GetProperty("mean").GetDouble(), open.Value!.Value, 1e-9);
        Assert.Equal(expected.GetProperty("median").GetDouble(), open.Median!.Value, 1e-9);
        Assert.Equal(expected.GetProperty("by_cow").EnumerateObject().Select(c => (c.Name, (int?)c.Value.GetInt32())),
            open.Cases.Where(c => c.Part == CasePart.Counted).Select(c => (c.Animal, c.Days)));

        var (first, toFirst) = (ExampleHerd.All("days-to-first-service")["days-to-first-service"].Line("all")!, Expected("days_to_first_service"));
        Assert.Equal(toFirst.GetProperty("n").GetInt32(), first.Denominator);
        Assert.Equal(toFirst.GetProperty("mean").GetDouble(), first.Value!.Value, 1e-9);
        Assert.Equal(Cows(toFirst, "never_served"), Animals(first, CasePart.LeftOut));
    }

    [SkippableFact]
    public void Days_open_so_far_count_the_open_and_never_those_that_left()
    {
        var (line, expected) = (ExampleHerd.All()["days-open"].Line("so-far")!, Expected("days_open_including_open_at_freeze"));
        Assert.Equal(expected.GetProperty("n").GetInt32(), line.Denominator);
        Assert.Equal(expected.GetProperty("mean").GetDouble(), line.Value!.Value, 1e-9);
    }

    // The worked herd counts 280 days: Jersey's here (5.8). Another breed moves every due day and nothing else.
    [SkippableFact]
    public void Due_days_dry_off_days_and_the_calving_interval_to_come()
    {
        foreach (var (dryDays, dryOff) in new[] { (60, "dry60"), (45, "dry45") })
        {
            var rules = new HerdRules(DateTimeZone.Utc, [new ProgrammeVersion(1, Programme.Default with { InForceFrom = ExampleHerd.Day("2023-01-01"), DryOffDaysBeforeDue = dryDays }, Instant.MinValue, [])]);
            var cows = ExampleHerd.Cows("Jersey", rules).ToDictionary(c => c.Animal, c => PregnancyDates.Of(c, rules));
            foreach (var cow in Expected("calendar").EnumerateObject())
            {
                string Date(string name) => cow.Value.GetProperty(name).GetString()!;
                var made = cows[cow.Name]!;
                Assert.Equal((Date("conception"), Date("due"), Date(dryOff)), ($"{made.From}", $"{made.Due}", $"{made.DryOff}"));
            }

            Assert.Equal(Expected("calendar").EnumerateObject().Select(c => c.Name), cows.Where(c => c.Value is not null).Select(c => c.Key).Order());
        }

        var line = ExampleHerd.AllOf("Jersey")["calving-interval"].Line("due")!;
        Assert.Equal(9, line.Denominator);
        Assert.Equal(Expected("projected_calving_interval_mean").GetDouble(), line.Value!.Value, 1e-9);
        Assert.Equal(line.Value.Value + 3, ExampleHerd.All()["calving-interval"].Line("due")!.Value!.Value, 1e-9);
        Assert.Equal(0, ExampleHerd.All()["calving-interval"].Line("calved")!.Denominator);
    }

    [SkippableFact]
    public void Service_rate_times_conception_risk_is_near_the_pregnancy_rate_and_is_not_it()
    {
        var set = ExampleHerd.Cycles();
        var product = set["service-rate"].Line("all")!.Value!.Value * set["conception-risk"].Line("all")!.Value!.Value;
        Assert.Equal(Expected("sr_times_pai").GetDouble(), product, 1e-9);
        Assert.NotEqual(set["pregnancy-rate"].Line("all")!.Value!.Value, product, 1e-3);
    }

    [SkippableFact]
    public void Services_per_conception_by_each_definition()
    {
        var expected = Expected("services_per_conception");
        var figure = ExampleHerd.All()["services-per-conception"];
        Assert.Equal(expected.GetProperty("pregnant_cows_only").GetDouble(), figure.Line("of-pregnant")!.Value!.Value, 1e-9);
        Assert.Equal(expected.GetProperty("services_pregnant_cows").GetInt32(), figure.Line("of-pregnant")!.Numerator);
        Assert.Equal(expected.GetProperty("reciprocal_p_ai_known").GetDouble(), figure.Line("found")!.Value!.Value, 1e-9);
        Assert.Equal(expected.GetProperty("all_services_over_maintained_pregnancies").GetDouble(), figure.Line("kept")!.Value!.Value, 1e-9);
    }

    [SkippableFact]
    public void Survival_to_pregnancy_its_median_and_the_share_pregnant_by_days_in_milk()
    {
        var set = ExampleHerd.All();
        var figure = set["days-to-pregnancy"];
        foreach (var (expected, made) in Expected("kaplan_meier").EnumerateArray().Zip(figure.Curve))
        {
            Assert.Equal(expected.GetProperty("time").GetInt32(), made.Days);
            Assert.Equal(expected.GetProperty("n_risk").GetInt32(), made.AtRisk);
            Assert.Equal(expected.GetProperty("surv").GetDouble(), 1 - made.Value, 1e-9);
            Assert.Equal(expected.GetProperty("loglog_lo").ValueKind == JsonValueKind.Null ? null : expected.GetProperty("loglog_lo").GetDouble(), made.Limits is { } l ? Math.Round(1 - l.High, 12) : null, Tolerance);
            Assert.Equal(expected.GetProperty("loglog_hi").ValueKind == JsonValueKind.Null ? null : expected.GetProperty("loglog_hi").GetDouble(), made.Limits is { } h ? Math.Round(1 - h.Low, 12) : null, Tolerance);
        }

        Assert.Equal(Expected("kaplan_meier").GetArrayLength(), figure.Curve.Count);
        Assert.Equal(Expected("km_median").GetDouble(), figure.Line("median")!.Value);
        foreach (var by in Expected("km_pregnant_by").EnumerateObject())
        {
            Assert.Equal(by.Value.GetDouble(), figure.Line(by.Name)!.Value!.Value, 1e-9);
        }

        foreach (var by in Expected("in_calf_simple").EnumerateObject())
        {
            Holds(set["pregnant-by-reached"].Line(by.Name)!, by.Value, "pregnant", "denominator", "prop");
        }
    }

    [SkippableFact]
    public void First_cycle_submission_and_the_rate_by_own_cycles()
    {
        var expected = Expected("first21_submission");
        var line = ExampleHerd.All("first-cycle-submission")["first-cycle-submission"].Line("all")!;
        Assert.Equal((expected.GetProperty("served").GetInt32(), expected.GetProperty("denominator").GetInt32()), (line.Numerator, line.Denominator));
        Assert.Equal(Cows(expected, "cows"), Animals(line, CasePart.Counted));

        Holds(ExampleHerd.All()["pregnancy-rate-own-cycles"].Line("all")!, Expected("per_cow_cycles"), "pregnancies", "cycles", "rate");
    }

    private static readonly IEqualityComparer<double?> Tolerance = EqualityComparer<double?>.Create((a, b) => a is null == b is null && (a is null || Math.Abs(a.Value - b!.Value) < 1e-9));

    private static void Holds(FigureLine line, JsonElement expected, string numerator, string denominator, string value, string? limits = null)
    {
        Assert.Equal((expected.GetProperty(numerator).GetInt32(), expected.GetProperty(denominator).GetInt32()), (line.Numerator, line.Denominator));
        Assert.Equal(expected.GetProperty(value).GetDouble(), line.Value!.Value, 1e-9);
        if (limits is not null)
        {
            Assert.Equal(expected.GetProperty(limits)[0].GetDouble(), line.Limits!.Value.Low, 1e-9);
            Assert.Equal(expected.GetProperty(limits)[1].GetDouble(), line.Limits!.Value.High, 1e-9);
        }
    }

    private static string[] Cows(JsonElement expected, string name) => [.. expected.GetProperty(name).EnumerateArray().Select(c => c.GetString()!)];

    private static string[] Animals(FigureLine line, params CasePart[] parts) => [.. line.Cases.Where(c => parts.Contains(c.Part)).Select(c => c.Animal).Order(StringComparer.Ordinal)];

    private static int Left(FigureLine line, LeftOutReason reason) => line.LeftOut.FirstOrDefault(l => l.Reason == reason).Count;

    [Fact]
    public void The_class_of_an_interval_ends_where_the_next_begins()
    {
        Assert.Equal("up-to-3 up-to-3 4-17 4-17 18-24 18-24 25-35 25-35 36-48 36-48 over-48",
            string.Join(' ', new[] { 1, 3, 4, 17, 18, 24, 25, 35, 36, 48, 49 }.Select(d => IntervalClass.Of(d).Key)));
        Assert.Equal("over-48", IntervalClass.Of(int.MaxValue).Key);
    }

    // Raw inseminations of six real herds, repeats included (A. Madouasse 2024, DairyHerdData, MIT licence).
    [SkippableFact]
    public void Interval_classes_of_six_real_herds()
    {
        var days = CheckTable.Read("real-days-to-pregnancy/dairy100_days_to_pregnancy_6herds.csv")
            .Select(r => r["ai_dims"].Split(';', StringSplitOptions.RemoveEmptyEntries).Select(d => int.Parse(d, CultureInfo.InvariantCulture)).ToArray())
            .SelectMany(d => d.Zip(d.Skip(1), (a, b) => b - a)).ToList();
        var expected = JsonDocument.Parse(File.ReadAllText(CheckTable.Path("real-days-to-pregnancy/dairy6_summary.json"))).RootElement.GetProperty("intervals");
        Assert.Equal(expected.GetProperty("n").GetInt32(), days.Count);
        Assert.Equal(expected.GetProperty("counts").EnumerateObject().Select(c => c.Value.GetInt32()), IntervalClass.All.Select(c => days.Count(d => IntervalClass.Of(d) == c)));
    }
}
