using System.Text.Json;
using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Tests.Figures.Statistics;

/// <summary>Compares a curve with what R printed of it.</summary>
internal static class SurvivalRow
{
    public static void Holds(CheckRow row, SurvivalCurve curve)
    {
        var step = curve.On(row.Int("time"));
        if (row.Number("surv") == 1 && step is null)
        {
            return;
        }

        row.Holds("surv", step!.Value.Survival);
        row.Holds("greenwood_se", step.Value.StandardError);
        row.Holds("loglog_lo", step.Value.Limits?.Low);
        row.Holds("loglog_hi", step.Value.Limits?.High);
        if (step.Value.Days == row.Int("time") && row["id"] is not ("dairy6_all" or "dairy6_herd" or "dairy6_parity" or "dairy6_first_ai"))
        {
            Assert.Equal((row.Int("n_risk"), row.Int("n_event")), (step.Value.AtRisk, step.Value.Events));
        }
    }

    public static void Holds(JsonElement expected, SurvivalCurve curve)
    {
        Assert.Equal(expected.GetProperty("n").GetInt32(), curve.Subjects);
        Assert.Equal(expected.GetProperty("events").GetInt32(), curve.Events);
        foreach (var (name, share) in new[] { ("q25", 0.25), ("median", 0.5), ("q75", 0.75) })
        {
            var (low, high) = curve.QuantileLimits(share);
            double?[] made = [curve.Quantile(share), low, high];
            var printed = expected.GetProperty("loglog").GetProperty(name).EnumerateArray()
                .Select(e => e.ValueKind == JsonValueKind.Null ? (double?)null : e.GetDouble());
            Assert.Equal(printed, made);
        }
    }

    public static void Holds(JsonElement expected, LogRank test)
    {
        Assert.Equal(expected.GetProperty("df").GetInt32(), test.Degrees);
        Assert.Equal(expected.GetProperty("chisq").GetDouble(), test.ChiSquare!.Value, 1e-9);
        Assert.Equal(1, test.P!.Value / expected.GetProperty("p").GetDouble(), 1e-8);
        Assert.Equal(expected.GetProperty("observed").EnumerateArray().Select(e => e.GetDouble()), test.Observed);
        foreach (var (printed, made) in expected.GetProperty("expected").EnumerateArray().Zip(test.Expected))
        {
            Assert.Equal(printed.GetDouble(), made, 1e-9);
        }
    }
}
