using System.ComponentModel.DataAnnotations;
using ReproLink.Api.Exchange.Messages;

namespace ReproLink.Api.Exchange.Herds;

/// <summary>A location the caller may use.</summary>
public sealed record LocationMessage : ExchangeResource
{
    /// <summary>Its key.</summary>
    [Required]
    public ExchangeIdentifier Identifier { get; init; } = new();

    /// <summary>The herd's name.</summary>
    /// <example>North Ridge</example>
    public string? Name { get; init; }

    /// <summary>Time zone of the IANA database in which the herd's days are counted.</summary>
    /// <example>America/Chicago</example>
    public string? TimeZoneId { get; init; }
}
