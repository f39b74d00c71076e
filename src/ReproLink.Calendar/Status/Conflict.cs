using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Status;

/// <summary>The conflicts of rule T7, by their letters there. Each closes the gate.</summary>
public enum ConflictKind
{
    /// <summary>a: <c>open</c> after <c>pregnant</c> without a recorded loss.</summary>
    OpenAfterPregnant = 1,

    /// <summary>b: service, oestrus or a new exposure after <c>pregnant</c>, or <c>pregnant</c> when only a newer service is left.</summary>
    ServedAfterPregnant = 2,

    /// <summary>c: <c>pregnant</c> without a service or exposure.</summary>
    PregnantWithoutService = 3,

    /// <summary>d: results of one class for one sample day that disagree.</summary>
    ResultsDisagree = 4,

    /// <summary>e: calving while open.</summary>
    CalvedWhileOpen = 5,

    /// <summary>f: calving too soon after the day that dates her, or after the latest service.</summary>
    CalvedTooSoon = 6,

    /// <summary>g: prostaglandin recorded while she was neither open nor not served.</summary>
    ProstaglandinGiven = 7,

    /// <summary>h: a loss recorded without an examination.</summary>
    LossNotExamined = 8,
}

/// <summary>One open conflict.</summary>
/// <param name="Kind">Which.</param>
/// <param name="Since">The day of the fact that raised it.</param>
/// <param name="RaisedBy">The fact that raised it.</param>
/// <param name="Against">The fact it contradicts; absent where it contradicts none in particular.</param>
/// <param name="EndsFrom">First sample day on which a valid sample ends it; absent = no sample does.</param>
public sealed record Conflict(ConflictKind Kind, Day Since, FactId RaisedBy, FactId? Against, Day? EndsFrom)
{
    /// <summary>The later service of a conflict b.</summary>
    public ServiceAttempt? LaterService { get; init; }

    /// <summary>The later exposure of a conflict b.</summary>
    public ExposureSpell? LaterExposure { get; init; }

    /// <summary>
    /// First sample day that ends it by the rules that govern her at that day (S10): of a later service or exposure T1 counts.
    /// </summary>
    public Day? EndsFromBy(TestRules test)
    {
        ArgumentNullException.ThrowIfNull(test);
        return LaterService is { } service ? service.DayZero + test.MinDaysPostService
            : LaterExposure is { } spell ? spell.Last + test.MinDaysPostService
            : EndsFrom;
    }

    /// <summary>The letter of rule T7.</summary>
    public char Letter => (char)('a' + (int)Kind - 1);

    /// <summary>Whether only an examination ends it (d), or also a person's confirmation (e, f: rule F6).</summary>
    public bool NeedsExamination =>
        Kind is ConflictKind.ResultsDisagree or ConflictKind.CalvedWhileOpen or ConflictKind.CalvedTooSoon;
}
