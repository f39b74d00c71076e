namespace ReproLink.Calendar.Figures.WhatIf;

/// <summary>
/// Prices of whoever asks, in one currency of theirs; absent = not reckoned. There are no defaults: a price without herd, year and
/// country says nothing.
/// </summary>
public sealed record Prices
{
    /// <summary>Last day in milk on which a cow is served: without an end nobody pays a bill.</summary>
    public required int LastServiceDay { get; init; }

    /// <summary>The currency, as a word to print.</summary>
    public string? Currency { get; init; }

    /// <summary>A day open after first service.</summary>
    public double? DayOpen { get; init; }

    /// <summary>A service.</summary>
    public double? Service { get; init; }

    /// <summary>A pregnancy test.</summary>
    public double? Test { get; init; }

    /// <summary>A confirmation.</summary>
    public double? Confirmation { get; init; }

    /// <summary>A dose of GnRH.</summary>
    public double? Gnrh { get; init; }

    /// <summary>A dose of prostaglandin.</summary>
    public double? Pgf { get; init; }

    /// <summary>A progesterone insert.</summary>
    public double? Insert { get; init; }

    /// <summary>A pregnancy ended by treatment.</summary>
    public double? LostPregnancy { get; init; }

    /// <summary>What has no price and is not in the sum, in words.</summary>
    public IReadOnlyList<string> Missing =>
    [
        .. new (string Word, double? Price)[]
        {
            ("days open", DayOpen), ("services", Service), ("tests", Test), ("confirmations", Confirmation), ("GnRH", Gnrh),
            ("prostaglandin", Pgf), ("inserts", Insert), ("lost pregnancies", LostPregnancy),
        }.Where(p => p.Price is null).Select(p => p.Word),
    ];

    internal double Of(Totals totals, double firstServiceDays) =>
        ((DayOpen ?? 0) * Math.Max(0, totals.DaysOpen - firstServiceDays)) + ((Service ?? 0) * totals.Services) + ((Test ?? 0) * totals.Tests)
        + ((Confirmation ?? 0) * totals.Confirmations) + ((Gnrh ?? 0) * totals.Doses.Gnrh) + ((Pgf ?? 0) * totals.Doses.Pgf)
        + ((Insert ?? 0) * totals.Doses.Inserts) + ((LostPregnancy ?? 0) * totals.Destroyed);
}
