using NodaTime;

namespace ReproLink.Records;

/// <summary>Instants as the store keeps them: 100 ns ticks since 1970, which covers every instant there is.</summary>
internal static class Ticks
{
    public static long Of(Instant instant) => instant.ToUnixTimeTicks();

    public static long? Of(Instant? instant) => instant?.ToUnixTimeTicks();

    public static Instant From(long ticks) => Instant.FromUnixTimeTicks(ticks);

    public static Instant? From(long? ticks) => ticks is { } t ? From(t) : null;
}
