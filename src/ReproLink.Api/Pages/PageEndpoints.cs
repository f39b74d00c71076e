using ReproLink.Api.Pages.IncomingResults;
using ReproLink.Api.Pages.Rounds;
using ReproLink.Records;
using ReproLink.Web;
using ReproLink.Web.Pages;

namespace ReproLink.Api.Pages;

/// <summary>The pages a person looks at, over the same calendar as the API.</summary>
internal static class PageEndpoints
{
    public static void MapPages(this IEndpointRouteBuilder app)
    {
        var pages = app.MapGroup("").ExcludeFromDescription().WithMetadata(new ForPeople());
        pages.MapGet("/", Home);
        pages.MapGet("/assets/{name}", static (HttpContext context, string name) =>
        {
            if (WebAssets.Find(name) is not { } asset)
            {
                return Results.NotFound();
            }

            context.Response.Headers.CacheControl = "max-age=31536000, immutable";
            return Results.Bytes(asset.Content, asset.MediaType);
        });
        pages.MapGet("/chute-worker.js", static (HttpContext context) =>
        {
            // Not among the assets: it may keep pages only below its own address, and a browser asks for it anew by itself.
            context.Response.Headers.CacheControl = "no-cache";
            var worker = WebAssets.Find("worker.js")!;
            return Results.Bytes(worker.Content, worker.MediaType);
        });
        pages.MapSignIn();
        pages.MapWelcome();
        pages.MapReader();
        pages.MapFirstHerd();
        var herd = pages.MapGroup("/herds/{scheme}/{id}");
        herd.MapGet("", static (HttpContext context) => Results.Redirect($"{context.Request.Path}/week"));
        herd.MapWeekPage();
        herd.MapTodayPage();
        herd.MapCalendarPage();
        herd.MapAnimalPages();
        herd.MapProgrammePage();
        herd.MapFigurePages();
        herd.MapWhatIfPages();
        herd.MapRoundPages();
        herd.MapResultPages();
    }

    private static IResult Home(HttpContext context, Store store, PageSession session)
    {
        if (session.CallerOf(context) is not { } caller)
        {
            return SignInPages.First(context);
        }

        var herds = store.Herds.All().Where(h => caller.Sees(h.Location)).Select(h => (h.Name, PageRequest.PathOf(h.Location))).ToList();
        return herds.Count == 1
            ? Results.Redirect($"{herds[0].Item2}/week")
            : PageResults.Page<HomePage>(context, FirstHerdPages.Home(herds, caller));
    }
}
