using System.Text.Json;
using NodaTime;

namespace ReproLink.Records;

/// <summary>A link that lets a person in once: it makes her a key.</summary>
/// <param name="Role">What her key may do.</param>
/// <param name="Locations">The locations it may see; null = all.</param>
/// <param name="Expires">From then on it opens nothing.</param>
/// <param name="Used">When it was used; null = not yet.</param>
/// <param name="UsedBy">Name of the key it made.</param>
public sealed record SignInLink(KeyRole Role, IReadOnlyList<LocationKey>? Locations, Instant Expires, Instant? Used, string? UsedBy)
{
    /// <summary>Whether it still opens at a moment.</summary>
    public bool Opens(Instant now) => Used is null && now < Expires;
}

/// <summary>A row of <c>sign_in_link</c>.</summary>
internal sealed class SignInLinkRow
{
    public const string Select = "SELECT link, role, locations, expires, used, used_by AS UsedBy FROM sign_in_link WHERE hash = @hash";

    public long Link { get; init; }

    public long Role { get; init; }

    public string? Locations { get; init; }

    public long Expires { get; init; }

    public long? Used { get; init; }

    public string? UsedBy { get; init; }

    public SignInLink ToLink() => new(
        (KeyRole)Role,
        Locations is null ? null : JsonSerializer.Deserialize(Locations, RecordsJson.Compact.ListLocationKey),
        Ticks.From(Expires),
        Ticks.From(Used),
        UsedBy);
}
