using Microsoft.AspNetCore.Antiforgery;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Problems;
using ReproLink.Api.Rounds;
using ReproLink.Records;

namespace ReproLink.Api.Pages.Rounds;

/// <summary>What the script at the chute sends and asks. The same handlers as the API's, for whoever is signed in on the pages.</summary>
internal static class RoundApi
{
    public static void MapRoundApi(this IEndpointRouteBuilder herd)
    {
        var rounds = herd.MapGroup("/rounds/{round}").AddEndpointFilter(Admit);
        rounds.MapGet("/now", Now).WithMetadata(new PageNeeds(Permissions.Read));
        rounds.MapPut("/tubes/{tube}", TubeEndpoints.Put).WithMetadata(new PageNeeds(Permissions.PostFacts));
        rounds.MapPost("/tubes", TubeEndpoints.Post).WithMetadata(new PageNeeds(Permissions.PostFacts));
    }

    // A cookie alone writes nothing: another site could make the browser send it. The token only our own pages have.
    private static async ValueTask<object?> Admit(EndpointFilterInvocationContext invocation, EndpointFilterDelegate next)
    {
        var context = invocation.HttpContext;
        var services = context.RequestServices;
        context.Response.Headers.CacheControl = "no-store";
        if (services.GetRequiredService<PageSession>().CallerOf(context) is { } caller)
        {
            context.Features.Set(caller);
        }

        var needs = new Needs(context.GetEndpoint()!.Metadata.GetRequiredMetadata<PageNeeds>().Permission);
        if (HerdAccessMiddleware.Refusal(context, needs, services.GetRequiredService<Store>(), services.GetRequiredService<IClock>()) is { } refusal)
        {
            return refusal;
        }

        return HttpMethods.IsGet(context.Request.Method) || await services.GetRequiredService<IAntiforgery>().IsRequestValidAsync(context)
            ? await next(invocation)
            : Problem.Of(ProblemTypes.PageExpired, "The page's token has expired: read the round again, which gives a new one. Nothing was recorded.");
    }

    private static IResult Now(HttpContext context, Store store, IAntiforgery antiforgery, string round)
    {
        var request = context.Herd();
        return RoundEndpoints.Find(store, request, round) is { } found
            ? Results.Ok(new
            {
                Now = request.Now.ToString(),
                Token = antiforgery.GetAndStoreTokens(context).RequestToken,
                Round = RoundMapping.Of(store.Views.Current(request.Herd, request.Now)).Detail(found),
            })
            : RoundReplies.NoRound(round);
    }

    /// <summary>The permission an address of the pages needs; <see cref="Needs"/> is settled before the session is read.</summary>
    private sealed record PageNeeds(Permissions Permission);
}
