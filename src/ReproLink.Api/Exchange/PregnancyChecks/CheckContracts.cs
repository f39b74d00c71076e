using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Exchange.PregnancyChecks;

/// <summary>What a test or examination said of a pregnancy.</summary>
public sealed record PregnancyCheck : AnimalEvent
{
    /// <summary>How it was looked for.</summary>
    /// <example>Blood</example>
    [Words("Echography", "Palpation", "Blood", "Milk")]
    public string? Method { get; init; }

    /// <summary>What was found; `Unknown` is inconclusive: the animal is to be tested again and held pregnant until then.</summary>
    /// <example>Empty</example>
    [Words("Empty", "Pregnant", "Multiple", "Unknown")]
    public string? Result { get; init; }
}
