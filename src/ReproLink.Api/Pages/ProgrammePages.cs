using Microsoft.AspNetCore.Mvc;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.ProgrammeChecks;
using ReproLink.Records;
using ReproLink.Web.Pages;

namespace ReproLink.Api.Pages;

/// <summary>The programme in force, what a week looks like under it, and the veterinarian's approval.</summary>
internal static class ProgrammePages
{
    public static void MapProgrammePage(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/programme", Get);
        herd.MapPost("/programme/approve", Approve);
    }

    private static IResult Get(HttpContext context, Store store, PageSession session, IClock clock)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock, Notices.Of(context.Request.Query["notice"]));
        return request is null ? instead! : Page(context, request, null, null);
    }

    private static async Task<IResult> Approve(
        HttpContext context, Store store, PageSession session, IClock clock, [FromForm] int version, [FromForm] string? expires)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        if (!request.Caller.Can(Permissions.Approve) || request.View.Rules.Versions.All(v => v.Number != version) || version == 0)
        {
            return PageResults.NotThere("This cannot be approved", "Only a veterinarian's key approves, and only a saved version.");
        }

        var until = (Day?)null;
        if (!string.IsNullOrWhiteSpace(expires))
        {
            if (!Reading.Dates.TryDay(expires, out var day) || day < request.View.AsOf)
            {
                return Page(context, request, $"Choose a day from {request.View.AsOf} on, or leave it empty.", expires, 422);
            }

            until = day;
        }

        await store.Programmes.Approve(request.View.Herd, version, request.Caller.Name, until, request.Now);
        return Results.Redirect($"{request.Frame.Path}/programme?notice=approved");
    }

    private static IResult Page(HttpContext context, PageRequest request, string? problem, string? expires, int status = 200)
    {
        var rules = request.View.Rules;
        var version = rules.On(request.View.AsOf);
        return PageResults.Page<ProgrammePage>(context, new
        {
            Shown = request.Frame,
            Version = version,
            Check = ProgrammeCheck.Run(version.Programme, rules, request.View.AsOf),
            Problem = problem,
            Expires = expires,
        }, status);
    }
}
