using System.Text.Json;

namespace ReproLink.Records;

/// <summary>A row of <c>api_key</c>.</summary>
internal sealed class KeyRow
{
    public const string Columns = "key, name, role, hash, locations, created, revoked";

    public const string Select = $"SELECT {Columns} FROM api_key";

    public long Key { get; init; }

    public string Name { get; init; } = "";

    public long Role { get; init; }

    public byte[] Hash { get; init; } = [];

    public string? Locations { get; init; }

    public long Created { get; init; }

    public long? Revoked { get; init; }

    public ApiKey ToKey() => new(
        Key,
        Name,
        (KeyRole)Role,
        Locations is null ? null : JsonSerializer.Deserialize(Locations, RecordsJson.Compact.ListLocationKey),
        Ticks.From(Created),
        Ticks.From(Revoked));
}
