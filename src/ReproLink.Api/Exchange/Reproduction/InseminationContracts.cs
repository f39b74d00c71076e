using NodaTime;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Exchange.Reproduction;

/// <summary>A service: insemination, natural service, a spell with a bull, or the transfer of an embryo.</summary>
public sealed record InseminationEvent : AnimalEvent
{
    /// <summary>What kind of service.</summary>
    /// <example>Insemination</example>
    [Words("NaturalService", "RunWithBull", "Insemination", "Implantation")]
    public required string InseminationType { get; init; }

    /// <summary>The sire's name, of a natural service or spell with a bull.</summary>
    public string? SireOfficialName { get; init; }

    /// <summary>Ids of the sire; read where he has no name.</summary>
    public IReadOnlyList<ExchangeIdentifier>? SireIdentifiers { get; init; }

    /// <summary>The straw used, and its sire.</summary>
    public StrawContract? Straw { get; init; }

    /// <summary>RunWithBull: when the bull came out; absent = he is still in.</summary>
    public Instant? EventEndDateTime { get; init; }
}

/// <summary>A straw of semen.</summary>
public sealed record StrawContract
{
    /// <summary>The name of its schema; may be left out by senders.</summary>
    /// <example>icarReproSemenStrawResource</example>
    public string ResourceType { get; init; } = "icarReproSemenStrawResource";

    /// <summary>The sire's name.</summary>
    /// <example>B77</example>
    public string? SireOfficialName { get; init; }

    /// <summary>Ids of the sire; read where he has no name.</summary>
    public IReadOnlyList<ExchangeIdentifier>? SireIdentifiers { get; init; }
}
