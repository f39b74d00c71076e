namespace ReproLink.Records;

/// <summary>A row of <c>herd</c>; Dapper fills properties by name and converts nothing.</summary>
internal sealed class HerdRow
{
    public const string Columns = "herd, scheme, location, name, time_zone, created, changed";

    public const string Select = $"SELECT {Columns} FROM herd";

    public long Herd { get; init; }

    public string Scheme { get; init; } = "";

    public string Location { get; init; } = "";

    public string Name { get; init; } = "";

    public string TimeZone { get; init; } = "";

    public long Created { get; init; }

    public long Changed { get; init; }

    public Herd ToHerd() => new(
        Herd, new LocationKey(Scheme, Location), Name, TimeZone, Ticks.From(Created), Ticks.From(Changed));
}
