using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Records;

namespace ReproLink.Api.Access;

/// <summary>What an endpoint below a location starts from: who asks, about which herd, and the one moment that is now.</summary>
/// <param name="Caller">Who asks.</param>
/// <param name="Herd">The herd.</param>
/// <param name="Now">Now, read once.</param>
/// <param name="Zone">The herd's time zone.</param>
internal sealed record HerdRequest(Caller Caller, Herd Herd, Instant Now, DateTimeZone Zone)
{
    /// <summary>The herd's today.</summary>
    public Day Today { get; } = Day.From(Now.InZone(Zone).Date);

    public static HerdRequest Of(Caller caller, Herd herd, Instant now) => new(caller, herd, now, DateTimeZoneProviders.Tzdb[herd.TimeZone]);
}

/// <summary>What the access checks left on the request.</summary>
internal static class RequestAccess
{
    public static Caller Caller(this HttpContext context) => Required<Caller>(context);

    public static HerdRequest Herd(this HttpContext context) => Required<HerdRequest>(context);

    /// <summary>The herd on a day as known at a moment; today's, which is kept folded, whenever that is the one asked for.</summary>
    public static HerdView ViewOf(this Store store, HerdRequest request, Day asOf, Instant? knownAt) =>
        knownAt is null && asOf == request.Today
            ? store.Views.Current(request.Herd, request.Now)
            : store.Views.At(request.Herd, asOf, knownAt, request.Now);

    /// <summary>The location in the address.</summary>
    public static LocationKey Location(this HttpContext context) => Required<LocationKey>(context);

    private static T Required<T>(HttpContext context)
        where T : class =>
        context.Features.Get<T>() ?? throw new InvalidOperationException($"The endpoint lacks the mark {nameof(Needs)}.");
}
