using NodaTime;

namespace ReproLink.Records;

/// <summary>What a key may do. The numbers are stored: never renumber one.</summary>
public enum KeyRole
{
    /// <summary>Everything but signing for drugs.</summary>
    Manager = 1,

    /// <summary>Herd software: posts facts and results, reads.</summary>
    Exchange = 2,

    /// <summary>Reads all, approves programmes.</summary>
    Veterinarian = 3,

    /// <summary>Reads.</summary>
    Reader = 4,
}

/// <summary>A caller's key. Its secret is shown once, when it is made, and never stored.</summary>
/// <param name="Id">Number.</param>
/// <param name="Name">Unique among the keys not revoked; the default source of what it posts.</param>
/// <param name="Role">What it may do.</param>
/// <param name="Locations">What it may see; null = every location.</param>
/// <param name="Created">When it was made.</param>
/// <param name="Revoked">When it was revoked; null while it holds.</param>
public sealed record ApiKey(
    long Id, string Name, KeyRole Role, IReadOnlyList<LocationKey>? Locations, Instant Created, Instant? Revoked);

/// <summary>The name is taken by a key that is not revoked.</summary>
public sealed class KeyNameTakenException(string name) : Exception($"There is a key named '{name}'. Revoke it first, or choose another name.");
