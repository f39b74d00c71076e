using System.Text.Json;
using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures.Statistics;

/// <summary>Kaplan-Meier, medians and log-rank on classic data, against R survival 3.5.3.</summary>
public sealed class SurvivalTests
{
    [Fact]
    public void Of_none_nothing_is_said()
    {
        var curve = new SurvivalCurve([]);
        Assert.Empty(curve.Steps);
        Assert.Null(curve.On(100));
        Assert.Null(curve.Quantile(0.5));
        Assert.Null(LogRank.Of([[new FollowUp(1, FollowUpEnd.Event)]]).ChiSquare);
        Assert.Null(LogRank.Of([[], []]).P);
    }

    [SkippableFact]
    public void Every_row_of_the_table_of_survival()
    {
        var rows = CheckTable.Read("statistics/kaplan_meier.csv");
        Assert.Equal(61, rows.Count);
        foreach (var group in rows.GroupBy(r => (r["id"], r["group"])))
        {
            var curve = new SurvivalCurve(Groups(group.Key.Item1)[group.Key.Item2]);
            foreach (var row in group)
            {
                SurvivalRow.Holds(row, curve);
            }
        }
    }

    [SkippableTheory]
    [InlineData("aml")]
    [InlineData("aml_all")]
    [InlineData("drug6mp")]
    [InlineData("edge_all_censored")]
    [InlineData("edge_last_event")]
    [InlineData("edge_exact_half")]
    [InlineData("edge_single")]
    public void Quartiles_and_medians_with_their_limits(string id)
    {
        var groups = Groups(id);
        foreach (var (name, expected) in Summaries(id))
        {
            SurvivalRow.Holds(expected, new SurvivalCurve(groups[name]));
        }
    }

    [SkippableTheory]
    [InlineData("aml")]
    [InlineData("drug6mp")]
    public void Log_rank(string id)
    {
        var expected = Json().GetProperty(id).GetProperty("logrank");
        SurvivalRow.Holds(expected, LogRank.Of([.. Groups(id).OrderBy(g => g.Key, StringComparer.Ordinal).Select(g => g.Value)]));
    }

    private static JsonElement Json() => JsonDocument.Parse(File.ReadAllText(CheckTable.Path("statistics/survival_summary.json"))).RootElement;

    private static IEnumerable<(string Name, JsonElement Expected)> Summaries(string id) =>
        Json().GetProperty(id).GetProperty("summary").EnumerateObject().Select(p => (p.Name, p.Value));

    private static Dictionary<string, List<FollowUp>> Groups(string id)
    {
        if (id.StartsWith("edge", StringComparison.Ordinal))
        {
            var input = Json().GetProperty(id).GetProperty("input");
            return new() { ["all"] = [.. Numbers(input.GetProperty("t")).Zip(Numbers(input.GetProperty("s")), Subject)] };
        }

        var rows = CheckTable.Read(id == "drug6mp" ? "statistics/input_drug6mp.csv" : "statistics/input_aml.csv");
        return rows.GroupBy(r => id == "aml_all" ? "all" : r["group"])
            .ToDictionary(g => g.Key, g => g.Select(r => Subject(r.Int("time"), r.Int("status"))).ToList());
    }

    private static IEnumerable<int> Numbers(JsonElement element) =>
        element.ValueKind == JsonValueKind.Array ? element.EnumerateArray().Select(e => e.GetInt32()) : [element.GetInt32()];

    private static FollowUp Subject(int time, int status) => new(time, status == 1 ? FollowUpEnd.Event : FollowUpEnd.Censored);
}
