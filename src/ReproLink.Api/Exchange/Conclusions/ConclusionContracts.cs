using System.ComponentModel.DataAnnotations;
using System.Text.Json.Serialization;
using NodaTime;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Exchange.Conclusions;

/// <summary>A standing pregnancy.</summary>
public sealed record GestationMessage : ExchangeResource
{
    /// <summary>Its id: one an animal, whatever her pregnancy is dated by.</summary>
    /// <example>gestation:1042</example>
    [Required]
    public string Id { get; init; } = "";

    /// <summary>The animal.</summary>
    [Required]
    public ExchangeIdentifier Animal { get; init; } = new();

    /// <summary>The due day, as local midday; of one that is deleted it means nothing.</summary>
    [Required]
    public Instant ExpectedCalvingDate { get; init; }

    /// <summary>What the standard has no word for.</summary>
    [JsonPropertyName(ExchangeWords.Extension)]
    [JsonPropertyOrder(9)]
    public ExtensionContract? Extension { get; init; }
}

/// <summary>What is concluded of an animal.</summary>
public sealed record StatusObserved : AnimalEvent
{
    /// <summary>The status. Inconclusive and contradictory tests are `Inseminated`, with the status in our extension.</summary>
    /// <example>Inseminated</example>
    [Words("Inseminated", "Pregnant", "NotPregnant", "Birthed", "DoNotBreed")]
    public string? ObservedStatus { get; init; }
}

/// <summary>A recommendation which sire to use; this service makes none.</summary>
public sealed record MatingRecommendation : AnimalEvent;
