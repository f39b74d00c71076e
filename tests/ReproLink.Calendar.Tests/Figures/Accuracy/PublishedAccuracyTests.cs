using System.Globalization;
using ReproLink.Calendar.Figures.Accuracy;
using ReproLink.Calendar.Figures.Statistics;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Tests.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures.Accuracy;

/// <summary>The embedded accuracies are those published: their tables give the printed rates again.</summary>
public sealed class PublishedAccuracyTests
{
    public static TheoryData<string> WithTables => [.. AccuracyLibrary.All.Where(a => a.Table is not null).Select(a => a.Id)];

    /// <summary>Half-up rounding to the digits printed; source: the study named in each row.</summary>
    [Theory]
    [MemberData(nameof(WithTables))]
    public void Its_table_gives_the_printed_rates(string id)
    {
        var study = AccuracyLibrary.Find(id)!;
        var table = study.Table!;
        Assert.Equal(study.Animals, table.Judged);
        Assert.Equal(RatesCheck.Agrees, study.Check);
        var compared = new (decimal? Printed, Proportion Counted)[]
        {
            (study.Sensitivity, table.Sensitivity), (study.Specificity, table.Specificity), (study.PositivePredictive, table.PositivePredictive),
            (study.NegativePredictive, table.NegativePredictive), (study.Accuracy, table.Accuracy), (study.SharePregnant, table.TruePrevalence),
        }.Where(r => r.Printed is not null).ToList();
        Assert.NotEmpty(compared);
        Assert.All(compared, r => Assert.Equal(r.Printed!.Value, Math.Round((decimal)r.Counted.Count / r.Counted.Of, r.Printed.Value.Scale, MidpointRounding.AwayFromZero)));
    }

    /// <summary>Karen et al. 2015, Mayo et al. 2016, Romano and Larson 2010: counts that the printed rates fix.</summary>
    [Theory]
    [InlineData("karen-2015-pag-elisa", 37, 1, 4, 58)]
    [InlineData("karen-2015-pag-ria", 41, 3, 0, 56)]
    [InlineData("karen-2015-ultrasound", 38, 5, 3, 54)]
    [InlineData("mayo-2016-rapid-eye", 156, 24, 3, 137)]
    [InlineData("romano-2010-day-28", 107, 3, 7, 129)]
    public void The_counts_are_the_published_ones(string id, int tp, int fp, int fn, int tn) =>
        Assert.Equal(new AccuracyTable(tp, fp, fn, tn), AccuracyLibrary.Find(id)!.Table);

    [Fact]
    public void What_was_recalled_or_contradicts_itself_is_shown_but_never_reckoned_with()
    {
        Assert.All(AccuracyLibrary.Usable, a => Assert.True(a.Evidence == Evidence.Seen && a.Check != RatesCheck.DoesNotAgree && a.Rates is not null, a.Id));
        Assert.Contains(AccuracyLibrary.All, a => a.Evidence == Evidence.Memory);
        Assert.Contains(AccuracyLibrary.All, a => a.Check == RatesCheck.DoesNotAgree);
        Assert.NotNull(AccuracyLibrary.Find("ricci-2014-serum-day-25")!.NotUsable);
        Assert.Null(AccuracyLibrary.Find(AccuracyLibrary.Usual)!.NotUsable);
        Assert.Equal(AccuracyLibrary.All.Count, AccuracyLibrary.All.Select(a => a.Id).Distinct().Count());
    }

    [Fact]
    public void Rates_have_Wilson_limits_where_counts_are_known_printed_ones_where_printed_and_else_none()
    {
        var counted = AccuracyLibrary.Find("karen-2015-pag-elisa")!.Rates!;
        Assert.Equal(new Proportion(37, 41).Wilson(), counted.Sensitivity.Limits);
        var printed = AccuracyLibrary.Find("latent-class-2018-milk")!.Rates!;
        Assert.Equal(new Interval(0.919, 0.990), printed.Sensitivity.Limits);
        Assert.Null(AccuracyLibrary.Find("ropstad-plasma")!.Rates!.Sensitivity.Limits);
    }

    [SkippableFact]
    public void Every_row_is_one_of_the_check_values()
    {
        var rows = CheckTable.Read("pag-accuracy.csv");
        foreach (var study in AccuracyLibrary.All)
        {
            Assert.Contains(rows, row =>
                row["doi"] == (study.Doi ?? "") && Same(row["n"], study.Animals) && Same(row["sensitivity"], study.Sensitivity) && Same(row["specificity"], study.Specificity)
                && Same(row["ppv"], study.PositivePredictive) && Same(row["npv"], study.NegativePredictive) && Same(row["accuracy"], study.Accuracy)
                && Same(row["prevalence"], study.SharePregnant) && Same(row["recheck_pct"], study.Inconclusive * 100)
                && (study.Table is not { } t || (Same(row["tp"], t.TruePositive) && Same(row["fp"], t.FalsePositive) && Same(row["fn"], t.FalseNegative) && Same(row["tn"], t.TrueNegative)))
                && (!row["seen_or_memory"].StartsWith("memory", StringComparison.Ordinal) || study.Evidence == Evidence.Memory)
                && row["note"].Contains("CHECK=mismatch", StringComparison.Ordinal) == (study.Check == RatesCheck.DoesNotAgree));
        }
    }

    private static bool Same(string cell, decimal? value) =>
        cell.Length == 0 ? value is null : value == decimal.Parse(cell, CultureInfo.InvariantCulture);
}
