using NodaTime;

namespace ReproLink.Records;

/// <summary>A location in the open standard's address space.</summary>
public sealed record LocationKey(string Scheme, string Id);

/// <summary>What is kept at a location.</summary>
public sealed record Herd(long Id, LocationKey Location, string Name, string TimeZone, Instant Created, Instant Changed);
