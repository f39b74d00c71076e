using ReproLink.Api.OpenApi;
using ReproLink.Calendar.Figures.Estimates;

namespace ReproLink.Api.Accuracy;

/// <summary>A number with its 95 % limits, and where it comes from.</summary>
public sealed record EstimateContract
{
    /// <summary>The number; absent = it has none, and `noValue` says why.</summary>
    /// <example>0.42</example>
    public double? Value { get; init; }

    /// <summary>Lower limit; absent = none is known.</summary>
    /// <example>0.36</example>
    public double? Low { get; init; }

    /// <summary>Upper limit; absent = none is known, or there is none.</summary>
    /// <example>0.48</example>
    public double? High { get; init; }

    /// <summary>Numerator, where something was counted.</summary>
    /// <example>105</example>
    public int? Numerator { get; init; }

    /// <summary>Denominator, where something was counted.</summary>
    /// <example>250</example>
    public int? Denominator { get; init; }

    /// <summary>Where it comes from: counted in the herd, a publication, given by you, dated by the programme, or computed.</summary>
    /// <example>herd</example>
    [Words("herd", "published", "given", "programme", "computed")]
    public required string From { get; init; }

    /// <summary>Why there is no value.</summary>
    public string? NoValue { get; init; }

    internal static EstimateContract Of(Estimate? estimate, string why = "nothing to count") => estimate is null
        ? new EstimateContract { From = "computed", NoValue = why }
        : new EstimateContract
        {
            Value = estimate.Value,
            Low = Finite(estimate.Limits?.Low),
            High = Finite(estimate.Limits?.High),
            Numerator = estimate.Counted?.Count,
            Denominator = estimate.Counted?.Of,
            From = Word(estimate.Origin),
        };

    /// <summary>The word of an origin.</summary>
    internal static string Word(EstimateOrigin origin) => origin switch
    {
        EstimateOrigin.Herd => "herd",
        EstimateOrigin.Published => "published",
        EstimateOrigin.Given => "given",
        EstimateOrigin.Programme => "programme",
        _ => "computed",
    };

    private static double? Finite(double? limit) => limit is { } value && double.IsFinite(value) ? value : null;
}
