using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Exchange.Reproduction;

/// <summary>She was seen in oestrus, or a device says so.</summary>
public sealed record HeatEvent : AnimalEvent
{
    /// <summary>How sure it is. All count alike: in doubt prostaglandin is withheld.</summary>
    [Words("InHeat", "Suspect", "Potential")]
    public string? Certainty { get; init; }
}

/// <summary>She calved.</summary>
public sealed record ParturitionEvent : AnimalEvent;

/// <summary>She lost a pregnancy.</summary>
public sealed record AbortionEvent : AnimalEvent;

/// <summary>She was dried off.</summary>
public sealed record DryOffEvent : AnimalEvent;

/// <summary>She is not to be bred, or may be bred again.</summary>
public sealed record DoNotBreedEvent : AnimalEvent
{
    /// <summary>False = she may be bred again; absent = true.</summary>
    /// <example>true</example>
    public bool? DoNotBreed { get; init; }
}
