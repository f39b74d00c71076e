using System.ComponentModel.DataAnnotations;
using System.Text.Json.Serialization;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Exchange.AnimalSets;

/// <summary>A sampling round as the set of its animals.</summary>
public sealed record AnimalSetMessage : ExchangeResource
{
    /// <summary>The round.</summary>
    /// <example>R12</example>
    [Required]
    public string Id { get; init; } = "";

    /// <summary>What people call it, and its day.</summary>
    /// <example>Sampling round R12 of 2026-10-08</example>
    public string? Name { get; init; }

    /// <summary>What the animals are together for: `Session`, as the standard calls a sampling session.</summary>
    /// <example>Session</example>
    [Words("Session")]
    public string Purpose { get; init; } = "Session";

    /// <summary>Its animals, in the order of their tubes.</summary>
    [Required]
    public IReadOnlyList<ExchangeIdentifier> Member { get; init; } = [];

    /// <summary>What the standard has no word for.</summary>
    [JsonPropertyName(ExchangeWords.Extension)]
    [JsonPropertyOrder(9)]
    public ExtensionContract? Extension { get; init; }
}
