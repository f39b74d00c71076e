using NodaTime;
using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.Messages;

namespace ReproLink.Api.Exchange.Movements;

/// <summary>She came into the herd.</summary>
public sealed record ArrivalEvent : AnimalEvent
{
    /// <summary>What is known of her; read as her card.</summary>
    public AnimalMessage? AnimalDetail { get; init; }

    /// <summary>What happened to her before; read as facts of their own.</summary>
    public AnimalStateContract? AnimalState { get; init; }
}

/// <summary>What happened to an animal before she came.</summary>
public sealed record AnimalStateContract
{
    /// <summary>Her calvings so far.</summary>
    /// <example>2</example>
    public double? CurrentLactationParity { get; init; }

    /// <summary>Her last calving.</summary>
    public LocalDate? LastCalvingDate { get; init; }

    /// <summary>Her last insemination.</summary>
    public LocalDate? LastInseminationDate { get; init; }

    /// <summary>Her last dry-off.</summary>
    public LocalDate? LastDryingOffDate { get; init; }
}

/// <summary>She left the herd alive.</summary>
public sealed record DepartureEvent : AnimalEvent
{
    /// <summary>Where she went.</summary>
    /// <example>Sale</example>
    public string? DepartureKind { get; init; }

    /// <summary>Why.</summary>
    /// <example>Fertility</example>
    public string? DepartureReason { get; init; }
}

/// <summary>She died.</summary>
public sealed record DeathEvent : AnimalEvent
{
    /// <summary>Of what.</summary>
    /// <example>Disease</example>
    public string? DeathReason { get; init; }
}
