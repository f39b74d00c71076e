using System.Globalization;
using System.Text.Json;
using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures.Statistics;

/// <summary>
/// Days to pregnancy of 604 lactations of six real herds (A. Madouasse 2024, DairyHerdData, MIT licence), against R survival 3.5.3.
/// </summary>
public sealed class SixHerdTests
{
    private const string Folder = "real-days-to-pregnancy/";

    [SkippableFact]
    public void Survival_of_all_by_parity_by_herd_and_to_the_first_insemination()
    {
        var rows = CheckTable.Read(Folder + "km_dairy6.csv");
        Assert.Equal(160, rows.Count);
        foreach (var group in rows.GroupBy(r => (Id: r["id"], Group: r["group"])))
        {
            var curve = new SurvivalCurve(Subjects(group.Key.Id, group.Key.Group));
            foreach (var row in group)
            {
                SurvivalRow.Holds(row, curve);
            }
        }
    }

    [SkippableFact]
    public void Medians_and_quartiles()
    {
        var summaries = Json().GetProperty("summaries");
        SurvivalRow.Holds(summaries.GetProperty("all").GetProperty("all"), new SurvivalCurve(Subjects("dairy6_all", "all")));
        SurvivalRow.Holds(summaries.GetProperty("first_ai").GetProperty("all"), new SurvivalCurve(Subjects("dairy6_first_ai", "all")));
        foreach (var parity in summaries.GetProperty("parity").EnumerateObject())
        {
            SurvivalRow.Holds(parity.Value, new SurvivalCurve(Subjects("dairy6_parity", parity.Name)));
        }
    }

    [SkippableFact]
    public void Log_rank_between_parities_and_between_herds()
    {
        SurvivalRow.Holds(Json().GetProperty("logrank_parity"), LogRank.Of([.. new[] { "1", "2", "3+" }.Select(p => Subjects("dairy6_parity", p))]));
        SurvivalRow.Holds(Json().GetProperty("logrank_herd"), LogRank.Of([.. Enumerable.Range(1, 6).Select(h => Subjects("dairy6_herd", $"herd{h}"))]));
    }

    [SkippableFact]
    public void Cumulative_incidence_of_pregnancy_and_of_leaving()
    {
        var incidence = new CumulativeIncidence([.. Lactations().Select(Competing)]);
        var rows = CheckTable.Read(Folder + "cif_dairy6.csv");
        Assert.Equal(15, rows.Count);
        foreach (var row in rows)
        {
            var step = incidence.On(row.Int("time"))!.Value;
            row.Holds("cif_pregnant", step.Event);
            row.Holds("se_pregnant", step.EventError);
            row.Holds("cif_exit", step.Competing);
            row.Holds("se_exit", step.CompetingError);
            row.Holds("open", 1 - step.Event - step.Competing);
        }
    }

    [SkippableFact]
    public void Days_to_first_insemination_and_days_open()
    {
        var first = new Summary(Lactations().Where(r => r.Number("dim_first_ai") is not null).Select(r => (double)r.Int("dim_first_ai")));
        Holds(Json().GetProperty("days_to_first_ai"), first);
        Holds(Json().GetProperty("days_open_pregnant_only"), new Summary(Lactations().Where(r => r["event"] == "1").Select(r => (double)r.Int("days"))));
    }

    private static void Holds(JsonElement expected, Summary made)
    {
        Assert.Equal(expected.GetProperty("n").GetInt32(), made.Count);
        Assert.Equal(expected.GetProperty("mean").GetDouble(), made.Mean!.Value, 1e-9);
        Assert.Equal(expected.GetProperty("median").GetDouble(), made.Median!.Value, 1e-9);
        Assert.Equal(expected.GetProperty("sd").GetDouble(), made.StandardDeviation!.Value, 1e-9);
    }

    // Student's point for 10 degrees of freedom is 2.228139 in any table.
    [Fact]
    public void The_interval_of_a_mean_is_Students()
    {
        var eleven = new Summary(Enumerable.Range(1, 11).Select(i => (double)i));
        var limits = eleven.MeanLimits()!.Value;
        Assert.Equal(2.228138852 * Math.Sqrt(11) / Math.Sqrt(11), limits.High - 6, 1e-8);
        Assert.Equal(limits.High - 6, 6 - limits.Low, 1e-12);
        Assert.Null(new Summary([5]).MeanLimits());
        Assert.Null(new Summary([]).Mean);
        Assert.Null(new Summary([]).Median);
    }

    private static JsonElement Json() => JsonDocument.Parse(File.ReadAllText(CheckTable.Path(Folder + "dairy6_summary.json"))).RootElement;

    private static IReadOnlyList<CheckRow> Lactations() => CheckTable.Read(Folder + "dairy100_days_to_pregnancy_6herds.csv");

    private static List<FollowUp> Subjects(string id, string group) => [.. Lactations()
        .Where(r => id switch
        {
            "dairy6_parity" => r["parity_group"] == group,
            "dairy6_herd" => group == "herd" + r["herd"],
            _ => true,
        })
        .Select(r => id == "dairy6_first_ai" ? ToFirst(r) : new FollowUp(r.Int("days"), r["event"] == "1" ? FollowUpEnd.Event : FollowUpEnd.Censored))];

    private static FollowUp ToFirst(CheckRow row) => row.Number("dim_first_ai") is { } days
        ? new FollowUp((int)days, FollowUpEnd.Event)
        : new FollowUp(row.Int("days"), FollowUpEnd.Censored);

    private static FollowUp Competing(CheckRow row) => new(row.Int("days"), row["source"] switch
    {
        "ai" => FollowUpEnd.Event,
        "censored_exit" => FollowUpEnd.Competing,
        "censored_cutoff" => FollowUpEnd.Censored,
        var other => throw new FormatException(string.Create(CultureInfo.InvariantCulture, $"no such source {other}")),
    });
}
