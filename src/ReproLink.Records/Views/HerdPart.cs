using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Records;

/// <summary>Some animals of a herd as they are now, unfolded, and what governs them.</summary>
/// <param name="Rules">The herd's rules.</param>
/// <param name="AsOf">The herd's today.</param>
/// <param name="KnownAt">The moment: never before what is on record was recorded.</param>
/// <param name="Find">One of the animals; null when she has no fact that counts.</param>
public sealed record HerdPart(HerdRules Rules, Day AsOf, Instant KnownAt, Func<string, AnimalHistory?> Find);
