using System.Globalization;
using ReproLink.Calendar.Figures.Estimates;

namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>What a comparison says in sentences, and what it supposes.</summary>
public static class WhatIfWords
{
    /// <summary>What differs from the first programme, by how much, and why; empty for the first.</summary>
    public static IReadOnlyList<string> Sentences(WhatIfComparison comparison, WhatIfResult result)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        ArgumentNullException.ThrowIfNull(result);
        return result.FromFirst is { } difference ? [.. Sentences(comparison.Results[0], result, difference, comparison.Prices)] : [];
    }

    /// <summary>What a comparison supposes: each is a way in which a herd can differ from it.</summary>
    public static IReadOnlyList<string> Assumptions(WhatIfComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        var programmes = comparison.Results.Select(r => r.Programme).ToList();
        var rates = programmes[0].Rates;
        return
        [
            .. Always(rates),
            .. programmes.Any(p => p.Test.Inconclusive.Value > 0) ? ["An inconclusive sample is followed by one more, on the first sampling day allowed, and that answer decides; prostaglandin is withheld until then."] : (string[])[],
            .. programmes.Any(p => p.Test.SecondSample) ? ["The second sample errs independently of the first. An animal whose protein is low may read low twice: then a second sample keeps fewer pregnancies than shown, down to none."] : (string[])[],
            .. programmes.Any(p => p.Course.CountsDoses) ? ["Every step is given on its day. Animals that return to oestrus during a protocol are not counted apart."] : (string[])[],
            .. programmes.Where(p => p.Course.WaitsForAnswer.Count > 0).Select(p =>
                $"“{p.Name}”: after a service on {string.Join(", ", p.Course.WaitsForAnswer)} no start leaves a draw whose answer is back in time; the plan waits for the answer (S2)."),
            .. comparison.Prices is { } prices ? [Money(prices)] : (string[])[],
            $"Limits: {Carrying.Method}. The inputs were estimated independently; what two programmes share moves in both at once. A number you gave, and the days of a programme, have no limits of their own.",
        ];
    }

    private static IEnumerable<string> Always(HerdRates rates)
    {
        yield return "Every cow is bred until she is pregnant and none is culled: days open and shares are those of cows that stay.";
        yield return "Every cow is first served on the same day, and every later service has the same chance, whatever its number, the cow and the season. Heifers are not in it.";
        yield return $"A cow not pregnant that is seen in oestrus before the test is served again {rates.ReturnDays.Value:0} days after the service; the others wait for the test.";
        yield return "An animal wrongly called pregnant, and a pregnancy lost after the test, are found at the confirmation and wait until then.";
        yield return $"Prostaglandin after a wrong open ends the pregnancy in {100 * rates.Ends.Value:0.#} % of the cases{(rates.Ends.Value == 1 ? " (14 of 14 animals in two studies: Giordano et al. 2012, Lobago et al. 2006)" : "")}.";
        yield return "Losses run evenly over the days from test to confirmation: a programme that tests later finds fewer pregnancies and sees fewer of them lost, so that both speak of the same ones.";
        yield return "Sensitivity and specificity are those of the study or those given; how the test does in this herd is not known from them. The herd's own shares pregnant are what its tests and records say.";
    }

    private static IEnumerable<string> Sentences(WhatIfResult first, WhatIfResult other, WhatIfFigures difference, Prices? prices)
    {
        var than = $"“{first.Programme.Name}”";
        if (other.Figures.DaysOpen is { } days && difference.DaysOpen is { } more)
        {
            yield return $"{Number(days.Value)} days open, {Than(more, "days", than)}.";
        }

        if (other.Figures.Pregnant[150] is { } share && first.Figures.Pregnant[150] is { } before && difference.Pregnant[150] is { } points)
        {
            yield return $"{Share(share.Value)} pregnant by 150 days in milk instead of {Share(before.Value)}: {Signed(100 * points.Value)} points{Limited(points, scale: 100)}.";
        }

        foreach (var why in Why(first.Programme, other.Programme))
        {
            yield return why;
        }

        if (other.Figures.DestroyedOf100 is { } lost && difference.DestroyedOf100 is { } lostMore)
        {
            yield return $"{Number(lost.Value, 2)} pregnancies ended by treatment after a wrong open for 100 kept, {Than(lostMore, "", than, 2)}.";
        }

        if (prices is not null && difference.Money is { } money)
        {
            yield return $"A cow costs {Number(Math.Abs(money.Value), 2)} {prices.Currency ?? "of your money"} {(money.Value < 0 ? "less" : "more")} than under {than}{Limited(money, 2)}, at your prices and with the last service on day {prices.LastServiceDay}.";
        }
    }

    private static IEnumerable<string> Why(WhatIfProgramme first, WhatIfProgramme other)
    {
        var (before, after) = (first.Course.ByWeekday.Average(c => c.Open), other.Course.ByWeekday.Average(c => c.Open));
        if (Math.Abs(after - before) > 0.05)
        {
            yield return $"A cow found open is served again {Number(after)} days after the service instead of {Number(before)} (mean of the weekdays).";
        }

        if (Math.Abs(other.Course.MeanTestDay - first.Course.MeanTestDay) > 0.05)
        {
            yield return $"Blood is first drawn {Number(other.Course.MeanTestDay)} days after the service instead of {Number(first.Course.MeanTestDay)} (mean of the weekdays).";
        }
    }

    private static string Than(Estimate more, string unit, string than, int digits = 1)
    {
        if (Math.Abs(more.Value) < 0.5 * Math.Pow(10, -digits))
        {
            return $"as many as under {than}";
        }

        var text = $"{Number(Math.Abs(more.Value), digits)}{(unit.Length > 0 ? " " + unit : "")} {(more.Value < 0 ? "fewer" : "more")} than under {than}{Limited(more, digits)}";
        return more.Limits is { Low: < 0, High: > 0 } ? $"{text}; the numbers do not tell whether there is a difference" : text;
    }

    // Limits of a difference carry its sign.
    private static string Limited(Estimate estimate, int digits = 1, double scale = 1) => estimate.Limits is not { } limits ? ""
        : double.IsInfinity(limits.High) ? $" (95 % limits from {Signed(scale * limits.Low, digits)}, no upper limit)"
        : $" (95 % limits {Signed(scale * limits.Low, digits)} to {Signed(scale * limits.High, digits)})";

    private static string Money(Prices prices) =>
        $"Money is yours: your prices, from first service to the pregnancy or the last service on day {prices.LastServiceDay} in milk, whatever becomes of the cows not pregnant by then."
        + (prices.Missing.Count == 0 ? "" : $" Without a price, and not in the sum: {string.Join(", ", prices.Missing)}.");

    private static string Share(double share) => $"{Number(100 * share)} %";

    private static string Signed(double value, int digits = 1) => (value > 0 ? "+" : "") + Number(value, digits);

    private static string Number(double value, int digits = 1) => value.ToString(digits == 1 ? "0.0" : "0.00", CultureInfo.InvariantCulture).Replace("-", "−", StringComparison.Ordinal);
}
