using NodaTime;
using ReproLink.Api.Problems;
using ReproLink.Records;

namespace ReproLink.Api.Access;

/// <summary>Mark of an endpoint: the permission it needs.</summary>
internal sealed record Needs(Permissions Permission)
{
    /// <summary>Whether the herd need not be there yet.</summary>
    public bool CreatesHerd { get; init; }
}

/// <summary>Mark of an endpoint that asks for a key itself, for the document.</summary>
internal sealed record TakesKey;

/// <summary>
/// Settles role and location before an endpoint reads anything. A location the key may not see and one that is not there
/// are answered alike, so that keys cannot be used to learn who else is served.
/// </summary>
internal sealed class HerdAccessMiddleware(RequestDelegate next)
{
    public Task InvokeAsync(HttpContext context, Store store, IClock clock)
    {
        if (context.GetEndpoint()?.Metadata.GetMetadata<Needs>() is not { } needs)
        {
            return next(context);
        }

        return Refusal(context, needs, store, clock) is { } problem ? problem.WriteTo(context) : next(context);
    }

    /// <summary>Why the caller on the request may not do this here; null = it may, and what endpoints start from is set.</summary>
    public static Problem? Refusal(HttpContext context, Needs needs, Store store, IClock clock)
    {
        if (context.Features.Get<Caller>() is not { } caller)
        {
            return Problem.Of(ProblemTypes.KeyRequired, "This address needs a key: send `Authorization: Bearer KEY`.");
        }

        var location = LocationOf(context);
        context.Features.Set(location);
        if (!caller.Sees(location))
        {
            return NoSuchLocation();
        }

        var herd = store.Herds.Find(location);
        if (herd is null && !(needs.CreatesHerd && caller.Can(needs.Permission)))
        {
            return NoSuchLocation();
        }

        if (!caller.Can(needs.Permission))
        {
            return Problem.Of(ProblemTypes.NotPermitted, $"The key '{caller.Name}' may not do this; roles that may: {Caller.RolesThatCan(needs.Permission)}.");
        }

        if (herd is not null)
        {
            context.Features.Set(HerdRequest.Of(caller, herd, clock.GetCurrentInstant()));
        }

        return null;
    }

    /// <summary>The location in the address.</summary>
    public static LocationKey LocationOf(HttpContext context) => new(Part(context, "scheme"), Part(context, "id"));

    /// <summary>A part of the address as it was meant: routing leaves an encoded slash as it came, and ids of holdings have slashes (34/123/1234).</summary>
    public static string Part(HttpContext context, string name) =>
        ((string)context.GetRouteValue(name)!).Replace("%2F", "/", StringComparison.OrdinalIgnoreCase);

    private static Problem NoSuchLocation() => Problem.Of(ProblemTypes.LocationNotFound, "There is no such location.");
}
