using System.ComponentModel.DataAnnotations;
using System.Text.Json.Serialization;
using NodaTime;

namespace ReproLink.Api.Exchange.Messages;

/// <summary>What every message of the standard has.</summary>
public abstract record ExchangeResource
{
    /// <summary>The kind of message: the name of its schema.</summary>
    /// <example>icarReproInseminationEventResource</example>
    [Required]
    [JsonPropertyOrder(-9)]
    public string ResourceType { get; set; } = "";

    /// <summary>Its address.</summary>
    [JsonPropertyName("@self")]
    [JsonPropertyOrder(-8)]
    public string? Self { get; set; }

    /// <summary>Whose it is and when it became what it is.</summary>
    [JsonPropertyOrder(-6)]
    public MetaContract? Meta { get; set; }

    /// <summary>The location it is about.</summary>
    [JsonPropertyOrder(-5)]
    public ExchangeIdentifier? Location { get; set; }
}

/// <summary>What every event about one animal has.</summary>
public abstract record AnimalEvent : ExchangeResource
{
    /// <summary>Its id in this service; the same after its sender replaced it.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    [JsonPropertyOrder(-7)]
    public string? Id { get; set; }

    /// <summary>The animal. An identifier not on record yet makes a new one; results wait until she is known.</summary>
    [Required]
    [JsonPropertyOrder(-4)]
    public ExchangeIdentifier Animal { get; set; } = new();

    /// <summary>When it happened. Midnight UTC names a date alone; a date alone is written as local midday.</summary>
    [JsonPropertyOrder(-3)]
    public Instant? EventDateTime { get; set; }

    /// <summary>Who did it.</summary>
    [JsonPropertyOrder(-2)]
    public string? Responsible { get; init; }

    /// <summary>Words for a person.</summary>
    [JsonPropertyOrder(-1)]
    public string? Remark { get; init; }

    /// <summary>What the standard has no word for. Never sent to be relied on; never needed to understand the rest.</summary>
    [JsonPropertyName(ExchangeWords.Extension)]
    [JsonPropertyOrder(9)]
    public ExtensionContract? Extension { get; set; }
}

/// <summary>Whose a message is, and when it became what it is.</summary>
public sealed record MetaContract
{
    /// <summary>The system whose record it is.</summary>
    /// <example>org.example.herd</example>
    [Required]
    public string Source { get; init; } = "";

    /// <summary>Its id there, unique within the source. Sent again, it replaces what it stood for.</summary>
    /// <example>s-1</example>
    public string? SourceId { get; init; }

    /// <summary>Whether it no longer counts.</summary>
    public bool? IsDeleted { get; init; }

    /// <summary>When it became what it is here; what a sender writes is not kept.</summary>
    [Required]
    public Instant Modified { get; init; }

    /// <summary>When its latest form was recorded here.</summary>
    public Instant? Created { get; init; }
}

/// <summary>An id in a named scheme.</summary>
public sealed record ExchangeIdentifier
{
    /// <summary>The scheme.</summary>
    /// <example>us.bovine</example>
    [Required]
    public string Scheme { get; init; } = "";

    /// <summary>The id, as received.</summary>
    /// <example>840003123456789</example>
    [Required]
    public string Id { get; init; } = "";
}
