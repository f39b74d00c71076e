using ReproLink.Api.Exchange.Messages;

namespace ReproLink.Api.Exchange.Treatments;

/// <summary>An agent of the breeding programme was given.</summary>
public sealed record TreatmentEvent : AnimalEvent
{
    /// <summary>The class of what was given: `gnrh`, `pgf`, `insert-in` or `insert-out`.</summary>
    /// <example>gnrh</example>
    public string? Procedure { get; init; }
}
