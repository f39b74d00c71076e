using ReproLink.Calendar.Figures.Estimates;

namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>One programme with its figures, and what differs from the first.</summary>
/// <param name="Programme">The programme.</param>
/// <param name="Figures">Its figures.</param>
/// <param name="FromFirst">Its figures less the first programme's; absent for the first.</param>
public sealed record WhatIfResult(WhatIfProgramme Programme, WhatIfFigures Figures, WhatIfFigures? FromFirst);

/// <summary>Programmes side by side.</summary>
/// <param name="Results">In the order asked.</param>
/// <param name="Prices">The prices; absent = no money.</param>
public sealed record WhatIfComparison(IReadOnlyList<WhatIfResult> Results, Prices? Prices)
{
    /// <summary>Most programmes side by side.</summary>
    public const int Most = 4;

    /// <summary>
    /// Reckons programmes. What two of them share, such as the herd's own conception risk, goes to its limits in both at once: the
    /// limits of a difference are those of the difference, not of two unrelated herds.
    /// </summary>
    /// <param name="programmes">One to <see cref="Most"/>.</param>
    /// <param name="prices">Prices; null = no money.</param>
    public static WhatIfComparison Of(IReadOnlyList<WhatIfProgramme> programmes, Prices? prices)
    {
        ArgumentNullException.ThrowIfNull(programmes);
        ArgumentOutOfRangeException.ThrowIfLessThan(programmes.Count, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(programmes.Count, Most);
        var first = programmes[0];
        var spokenOf = (first.Rates.TestDay ?? first.Course.MeanTestDay, first.Rates.ConfirmationDay ?? first.Course.MeanConfirmationDay);
        double[] Flat(WhatIfProgramme p, double[] values) => WhatIfFigures.Flat(ModelInputs.From(p, values, spokenOf), prices);
        return new WhatIfComparison(
        [
            .. programmes.Select((p, i) => new WhatIfResult(
                p,
                WhatIfFigures.Of(Carrying.Through(ModelInputs.Of(p), v => Flat(p, v)), 0, 1),
                i == 0 ? null : WhatIfFigures.Of(Difference(first, p, Flat), -1, 1))),
        ], prices);
    }

    private static IReadOnlyList<Estimate?> Difference(WhatIfProgramme first, WhatIfProgramme other, Func<WhatIfProgramme, double[], double[]> flat)
    {
        var inputs = ModelInputs.Of(first).ToList();
        var at = new int[ModelInputs.Count];
        foreach (var (estimate, i) in ModelInputs.Of(other).Select((e, i) => (e, i)))
        {
            at[i] = estimate == inputs[i] ? i : inputs.Count;
            if (at[i] != i)
            {
                inputs.Add(estimate);
            }
        }

        return Carrying.Through(inputs, values =>
        {
            var one = flat(first, values[..ModelInputs.Count]);
            var two = flat(other, [.. at.Select(i => values[i])]);
            return [.. two.Zip(one, (a, b) => a - b)];
        });
    }
}
