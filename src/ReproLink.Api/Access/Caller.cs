using ReproLink.Records;

namespace ReproLink.Api.Access;

/// <summary>What a caller may do.</summary>
[Flags]
internal enum Permissions
{
    None = 0,
    Read = 1,
    PostFacts = 2,
    PostResults = 4,
    Confirm = 8,
    Manage = 16,
    Approve = 32,
    Restore = 64,
}

/// <summary>Who asks: a key, or the person at the machine in a trial.</summary>
/// <param name="Name">The key's name; the default source of the facts it sends.</param>
/// <param name="May">What the role allows.</param>
/// <param name="Locations">The locations it may see; absent = all.</param>
/// <param name="Key">The key's number; absent = no key was sent, in a trial.</param>
internal sealed record Caller(string Name, Permissions May, IReadOnlyList<LocationKey>? Locations, long? Key = null)
{
    private const Permissions OfReader = Permissions.Read;
    private const Permissions OfExchange = OfReader | Permissions.PostFacts | Permissions.PostResults;
    private const Permissions OfVeterinarian = OfReader | Permissions.PostFacts | Permissions.PostResults | Permissions.Confirm | Permissions.Approve | Permissions.Restore;
    private const Permissions OfManager = OfExchange | Permissions.Confirm | Permissions.Manage | Permissions.Restore;

    /// <summary>A request without a key in a trial: manager and veterinarian.</summary>
    public static readonly Caller Local = new("local", OfManager | OfVeterinarian, null);

    public static Caller Of(ApiKey key) => new(key.Name, PermissionsOf(key.Role), key.Locations, key.Id);

    public bool Can(Permissions needed) => (May & needed) == needed;

    public bool Sees(LocationKey location) => Locations is null || Locations.Contains(location);

    /// <summary>The roles that may do something, for the refusal.</summary>
    public static string RolesThatCan(Permissions needed) =>
        string.Join(", ", Enum.GetValues<KeyRole>().Where(r => (PermissionsOf(r) & needed) == needed).Select(RoleWord));

    /// <summary>A role as it is written.</summary>
    public static string RoleWord(KeyRole role) => role switch
    {
        KeyRole.Manager => "manager",
        KeyRole.Exchange => "exchange",
        KeyRole.Veterinarian => "veterinarian",
        _ => "reader",
    };

    private static Permissions PermissionsOf(KeyRole role) => role switch
    {
        KeyRole.Manager => OfManager,
        KeyRole.Exchange => OfExchange,
        KeyRole.Veterinarian => OfVeterinarian,
        _ => OfReader,
    };
}
