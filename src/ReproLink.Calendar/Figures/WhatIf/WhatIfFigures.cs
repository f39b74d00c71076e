using ReproLink.Calendar.Figures.Estimates;

namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>
/// The figures of one programme, or of the difference of two. Per cow that is bred until she is pregnant, which is per pregnancy
/// kept; a null figure has no value.
/// </summary>
public sealed record WhatIfFigures
{
    /// <summary>The days in milk at which the share pregnant is told.</summary>
    public static readonly IReadOnlyList<int> Days = [100, 150, 200];

    /// <summary>The last day of the curve.</summary>
    public const int LastDay = 300;

    /// <summary>Days from calving to the service that took, mean.</summary>
    public Estimate? DaysOpen { get; init; }

    /// <summary>Services.</summary>
    public Estimate? Services { get; init; }

    /// <summary>Pregnancy tests, confirmations not included.</summary>
    public Estimate? Tests { get; init; }

    /// <summary>Confirmations.</summary>
    public Estimate? Confirmations { get; init; }

    /// <summary>Pregnancies ended by treatment after a wrong <c>open</c>, of 100 pregnancies kept.</summary>
    public Estimate? DestroyedOf100 { get; init; }

    /// <summary>Doses of GnRH; null = no protocol is reckoned with.</summary>
    public Estimate? Gnrh { get; init; }

    /// <summary>Doses of prostaglandin.</summary>
    public Estimate? Pgf { get; init; }

    /// <summary>Progesterone inserts.</summary>
    public Estimate? Inserts { get; init; }

    /// <summary>Share not pregnant when serving ends; null = no prices were given, serving does not end.</summary>
    public Estimate? NotPregnantAtEnd { get; init; }

    /// <summary>Money per cow from first service to the end of serving; null = no prices were given.</summary>
    public Estimate? Money { get; init; }

    /// <summary>Share pregnant by each day in milk, 0 to <see cref="LastDay"/>.</summary>
    public required IReadOnlyList<Estimate?> Pregnant { get; init; }

    // One order for what goes out of a reckoning and what comes back with limits.
    internal static double[] Flat(ModelInputs inputs, Prices? prices)
    {
        var model = new RenewalModel(inputs);
        var total = model.Total();
        var (pregnant, _) = model.Until(LastDay);
        var (end, money) = prices is null ? (double.NaN, double.NaN) : End(model, prices, inputs.First);
        var counted = inputs.Course.CountsDoses ? 1 : double.NaN;
        return
        [
            total.DaysOpen, total.Services, total.Tests, total.Confirmations, 100 * total.Destroyed,
            counted * total.Doses.Gnrh, counted * total.Doses.Pgf, counted * total.Doses.Inserts, end, money, .. pregnant,
        ];
    }

    internal static WhatIfFigures Of(IReadOnlyList<Estimate?> flat, double least, double most)
    {
        Estimate? Bounded(int index) => flat[index].Within(least < 0 ? double.NegativeInfinity : 0, double.PositiveInfinity);
        return new WhatIfFigures
        {
            DaysOpen = Bounded(0),
            Services = Bounded(1),
            Tests = Bounded(2),
            Confirmations = Bounded(3),
            DestroyedOf100 = Bounded(4),
            Gnrh = Bounded(5),
            Pgf = Bounded(6),
            Inserts = Bounded(7),
            NotPregnantAtEnd = flat[8].Within(least, most),
            Money = flat[9],
            Pregnant = [.. flat.Skip(10).Select(e => e.Within(least, most))],
        };
    }

    private static (double NotPregnant, double Money) End(RenewalModel model, Prices prices, double first)
    {
        var (pregnant, until) = model.Until(prices.LastServiceDay);
        return (1 - pregnant[^1], prices.Of(until, first));
    }
}
