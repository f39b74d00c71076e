using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures.Statistics;

/// <summary>Kappa and two-by-two tables against R (vcd, psych, epiR) and the liver scan of Altman and Bland 1994.</summary>
public sealed class AgreementTests
{
    [Fact]
    public void Kappa_has_no_value_when_nothing_was_judged_or_all_is_one_class()
    {
        Assert.Null(new Kappa(0, 0, 0, 0).Value);
        Assert.Null(new Kappa(0, 0, 0, 0).Limits);
        Assert.Null(new Kappa(12, 0, 0, 0).Value);
        Assert.Equal(1.0, new Kappa(12, 0, 0, 0).Agreement.Value);
    }

    // Documentation of the R package statpsych: 31, 12, 4, 58.
    [Fact]
    public void Kappa_gives_the_printed_example()
    {
        var kappa = new Kappa(31, 12, 4, 58);
        Assert.Equal(0.6756757, kappa.Value!.Value, 5e-8);
        Assert.Equal(0.07344761, kappa.StandardError!.Value, 5e-9);
        Assert.Equal(0.5317210, kappa.Limits!.Value.Low, 5e-8);
        Assert.Equal(0.8196303, kappa.Limits!.Value.High, 5e-8);
    }

    [SkippableFact]
    public void Every_row_of_the_table_of_kappa()
    {
        var rows = CheckTable.Read("statistics/kappa.csv");
        Assert.Equal(4, rows.Count);
        foreach (var row in rows)
        {
            var kappa = new Kappa(row.Int("a"), row.Int("b"), row.Int("c"), row.Int("d"));
            row.Holds("po", kappa.Agreement.Value);
            row.Holds("pe", kappa.ByChance);
            row.Holds("kappa", kappa.Value);
            row.Holds("vcd_ase", kappa.StandardError);
            row.Holds("psych_lo", kappa.Limits?.Low);
            row.Holds("psych_hi", kappa.Limits?.High);
            row.Holds("pabak", kappa.Adjusted);
        }
    }

    [SkippableFact]
    public void Every_row_of_the_tables_of_test_accuracy()
    {
        var rows = CheckTable.Read("statistics/diagnostic_tests.csv");
        Assert.Equal(28, rows.Count);
        foreach (var group in rows.GroupBy(r => r["id"]))
        {
            var cells = group.ToDictionary(r => r["measure"]);
            var (found, right) = (cells["sensitivity"], cells["specificity"]);
            var table = new AccuracyTable(found.Int("x"), right.Int("n") - right.Int("x"), found.Int("n") - found.Int("x"), right.Int("x"));
            Holds(found, table.Sensitivity);
            Holds(right, table.Specificity);
            Holds(cells["ppv"], table.PositivePredictive);
            Holds(cells["npv"], table.NegativePredictive);
            Holds(cells["accuracy"], table.Accuracy);
            Holds(cells["apparent_prev"], table.ApparentPrevalence);
            Holds(cells["true_prev"], table.TruePrevalence);
        }
    }

    // Altman and Bland 1994: 231, 32, 27, 54; and 152/9/3/181 (epiR 2.0.57).
    [Theory]
    [InlineData(231, 32, 27, 54, 2.40625, 1.822791, 3.176470, 0.166667, 0.112590, 0.246717)]
    [InlineData(152, 9, 3, 181, 20.70251, 10.93765, 39.18518, 0.020317, 0.006622, 0.062334)]
    public void Likelihood_ratios_with_limits(int tp, int fp, int fn, int tn, double plus, double plusLow, double plusHigh, double minus, double minusLow, double minusHigh)
    {
        var table = new AccuracyTable(tp, fp, fn, tn);
        Assert.Equal(plus, table.LikelihoodPositive!.Value.Value, 1e-5);
        Assert.Equal(plusLow, table.LikelihoodPositive!.Value.Limits!.Value.Low, 1e-5);
        Assert.Equal(plusHigh, table.LikelihoodPositive!.Value.Limits!.Value.High, 1e-5);
        Assert.Equal(minus, table.LikelihoodNegative!.Value.Value, 1e-6);
        Assert.Equal(minusLow, table.LikelihoodNegative!.Value.Limits!.Value.Low, 1e-6);
        Assert.Equal(minusHigh, table.LikelihoodNegative!.Value.Limits!.Value.High, 1e-6);
    }

    [Fact]
    public void Ratios_without_a_finite_value_have_none()
    {
        Assert.Null(new AccuracyTable(5, 0, 1, 9).LikelihoodPositive);
        Assert.Null(new AccuracyTable(0, 0, 0, 9).LikelihoodNegative);
        Assert.Null(new AccuracyTable(5, 1, 0, 9).LikelihoodNegative!.Value.Limits);
    }

    private static void Holds(CheckRow row, Proportion value)
    {
        Assert.Equal((row.Int("x"), row.Int("n")), (value.Count, value.Of));
        row.Holds("est", value.Value);
        row.Holds("wilson_lo", value.Wilson()!.Value.Low);
        row.Holds("wilson_hi", value.Wilson()!.Value.High);
        row.Holds("cp_lo", value.ClopperPearson()!.Value.Low);
        row.Holds("cp_hi", value.ClopperPearson()!.Value.High);
    }
}
