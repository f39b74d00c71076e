using System.ComponentModel.DataAnnotations;
using System.Text.Json.Serialization;
using NodaTime;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Exchange.Animals;

/// <summary>An animal of the herd.</summary>
public sealed record AnimalMessage : ExchangeResource
{
    /// <summary>The identifier by which events name her.</summary>
    [Required]
    public ExchangeIdentifier Identifier { get; init; } = new();

    /// <summary>Further identifiers; those of the scheme `org.reprolink.animal` are the herd's own names.</summary>
    public IReadOnlyList<ExchangeIdentifier>? AlternativeIdentifiers { get; init; }

    /// <summary>Cattle.</summary>
    /// <example>Cattle</example>
    [Required]
    [Words("Cattle")]
    public string Specie { get; init; } = "Cattle";

    /// <summary>Female: the herd is one of cows and heifers.</summary>
    /// <example>Female</example>
    [Required]
    [Words("Female")]
    public string Gender { get; init; } = "Female";

    /// <summary>Birth day, as local midday.</summary>
    public Instant? BirthDate { get; init; }

    /// <summary>Breed; codes of `icar.breed-3` are understood, words too.</summary>
    public ExchangeIdentifier? PrimaryBreed { get; init; }

    /// <summary>The farmer's short number.</summary>
    /// <example>1042</example>
    public string? ManagementTag { get; init; }

    /// <summary>Whether she is in the herd.</summary>
    /// <example>Alive</example>
    [Words("Alive", "Dead", "OffFarm", "Unknown")]
    public string? Status { get; init; }

    /// <summary>What is concluded of her: absent while she is neither known open nor known pregnant nor waiting for a test.</summary>
    /// <example>Inseminated</example>
    [Words("Inseminated", "Pregnant", "NotPregnant", "Birthed", "DoNotBreed")]
    public string? ReproductionStatus { get; init; }

    /// <summary>What the standard has no word for.</summary>
    [JsonPropertyName(ExchangeWords.Extension)]
    [JsonPropertyOrder(9)]
    public ExtensionContract? Extension { get; init; }
}
