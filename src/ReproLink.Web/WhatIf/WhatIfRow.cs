using ReproLink.Calendar.Figures.Estimates;
using ReproLink.Calendar.Figures.WhatIf;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.WhatIf;

/// <summary>One row of the side-by-side table.</summary>
/// <param name="Label">What it is.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Of">The figure.</param>
/// <param name="Scale">What it is shown times: 100 for per cent.</param>
/// <param name="Digits">Decimals.</param>
public sealed record WhatIfRow(string Label, string Unit, Func<WhatIfFigures, Estimate?> Of, double Scale = 1, int Digits = 1)
{
    /// <summary>The rows, those that answer the question first.</summary>
    public static IEnumerable<WhatIfRow> All(WhatIfComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        yield return new(T("whatIf.days-open"), T("whatIf.days-from-calving"), f => f.DaysOpen);
        foreach (var day in WhatIfFigures.Days)
        {
            yield return new(T("whatIf.pregnant-by-days-in-milk", day), "%", f => f.Pregnant[day], 100);
        }

        yield return new(T("whatIf.pregnancies-ended-after-a-wrong-open"), T("whatIf.of-100-kept"), f => f.DestroyedOf100, 1, 2);
        yield return new(T("common.services"), T("whatIf.per-pregnancy-kept"), f => f.Services, 1, 2);
        yield return new(T("whatIf.pregnancy-tests"), T("whatIf.per-pregnancy-kept"), f => f.Tests, 1, 2);
        yield return new(T("whatIf.confirmations"), T("whatIf.per-pregnancy-kept"), f => f.Confirmations, 1, 2);
        if (comparison.Results.Any(r => r.Programme.Course.CountsDoses))
        {
            yield return new(T("common.gnrh"), T("whatIf.doses-per-pregnancy-kept"), f => f.Gnrh, 1, 2);
            yield return new(T("common.prostaglandin"), T("whatIf.doses-per-pregnancy-kept"), f => f.Pgf, 1, 2);
            if (comparison.Results.Any(r => r.Figures.Inserts is { Value: > 0 }))
            {
                yield return new(T("common.progesterone-inserts"), T("whatIf.per-pregnancy-kept"), f => f.Inserts, 1, 2);
            }
        }

        if (comparison.Prices is { } prices)
        {
            yield return new(T("whatIf.not-pregnant-when-serving-ends", prices.LastServiceDay), "%", f => f.NotPregnantAtEnd, 100);
            yield return new(T("whatIf.money"), T("whatIf.a-cow-your-prices", prices.Currency ?? T("whatIf.your-money")), f => f.Money, 1, 2);
        }
    }
}
