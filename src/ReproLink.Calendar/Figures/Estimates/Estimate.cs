using ReproLink.Calendar.Figures.Statistics;

namespace ReproLink.Calendar.Figures.Estimates;

/// <summary>Where a number comes from.</summary>
public enum EstimateOrigin
{
    /// <summary>Counted in the herd's own facts.</summary>
    Herd = 1,

    /// <summary>A named publication.</summary>
    Published = 2,

    /// <summary>Given by whoever asks; taken as it is, without an interval.</summary>
    Given = 3,

    /// <summary>Computed from other estimates, their limits carried through.</summary>
    Carried = 4,

    /// <summary>Dated by a programme: it follows from weekdays and a protocol.</summary>
    Programme = 5,
}

/// <summary>A number with its limits, and where both come from.</summary>
/// <param name="Value">The number, in the unit of what it estimates.</param>
/// <param name="Limits">
/// Limits at <see cref="Confidence.Level"/>; absent = none is known, and none is made up. A limit that does not exist is infinite.
/// </param>
/// <param name="Origin">Where it comes from.</param>
public sealed record Estimate(double Value, Interval? Limits, EstimateOrigin Origin)
{
    /// <summary>What was counted; absent = it is no count out of a number.</summary>
    public Proportion? Counted { get; init; }

    /// <summary>A counted share with Wilson limits; null = out of none.</summary>
    public static Estimate? Of(Proportion counted, EstimateOrigin origin) =>
        counted.Value is { } value ? new Estimate(value, counted.Wilson(), origin) { Counted = counted } : null;

    /// <summary>A number somebody gives.</summary>
    public static Estimate Given(double value) => new(value, null, EstimateOrigin.Given);
}
