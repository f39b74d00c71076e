using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Testing;

/// <summary>Turns a measured value into an outcome (rule T8).</summary>
public static class Values
{
    /// <summary>
    /// The outcome a result is judged as: as received, or by the cut-offs in force on its sample day; both and disagreeing
    /// = <c>recheck</c>; null = neither can tell.
    /// </summary>
    public static Outcome? Effective(TestResult result, HerdRules rules)
    {
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(rules);
        if (result.Value is null)
        {
            return result.Outcome;
        }

        return Disagree(result, rules) ? Outcome.Recheck : result.Outcome ?? FromValue(result, rules);
    }

    /// <summary>Whether outcome and value both speak and say different things.</summary>
    public static bool Disagree(TestResult result, HerdRules rules)
    {
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(rules);
        return result.Outcome is { } said && said != Outcome.Invalid
            && FromValue(result, rules) is { } measured && measured != said;
    }

    /// <summary>The outcome by value alone; null when the assay or unit is another, or no cut-offs are in force that day.</summary>
    public static Outcome? FromValue(TestResult result, HerdRules rules)
    {
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(rules);
        var test = rules.On(result.Day).Programme.Test;
        if (result.Value is not { } value || test.CutOffs is not { } cutOffs || result.Assay != test.Assay || result.Unit != cutOffs.Unit)
        {
            return null;
        }

        // Ties go to recheck: a value exactly on a cut-off is not clear enough to give prostaglandin on.
        return value < cutOffs.OpenBelow ? Outcome.Open
            : value > cutOffs.PregnantAbove ? Outcome.Pregnant
            : Outcome.Recheck;
    }
}
