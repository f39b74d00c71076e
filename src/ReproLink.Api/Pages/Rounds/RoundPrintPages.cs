using ReproLink.Api.Access;
using ReproLink.Api.Labels;
using ReproLink.Api.Pages.Forms;
using ReproLink.Api.Problems;
using ReproLink.Api.Rounds;
using ReproLink.Records;
using ReproLink.Web.Forms;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages.Rounds;

/// <summary>Labels and manifests for whoever is signed in on the pages: the same as the API's.</summary>
internal static class RoundPrintPages
{
    public static void MapRoundPrints(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/rounds/{round}/labels", Labels);
        herd.MapGet("/rounds/{round}/manifest", (HttpContext context, FormDoor door, Store store, string round) => Shown(context, door, store, round, (c, h, r) => PrintEndpoints.Manifest(c, h, r, csv: false)));
        herd.MapGet("/rounds/{round}/manifest.csv", (HttpContext context, FormDoor door, Store store, string round) => Shown(context, door, store, round, (c, h, r) =>
        {
            c.Response.Headers.ContentDisposition = $"attachment; filename=\"manifest-R{r.Number}.csv\"";
            return PrintEndpoints.Manifest(c, h, r, csv: true);
        }));
    }

    private static IResult Labels(HttpContext context, FormDoor door, Store store, string round)
    {
        // A browser sends every field of the form, the empty ones too.
        context.Request.Query = new QueryCollection(context.Request.Query.Where(q => q.Value.ToString().Length > 0).ToDictionary());
        var (request, instead) = door.Look(context);
        if (request is null)
        {
            return instead!;
        }

        if (RoundEndpoints.Find(store, request.Herd, round) is not { } found)
        {
            return RoundPages.NoRound(round);
        }

        var labels = PrintEndpoints.Labels(context, request.Herd, found);
        return labels is Problem refused
            ? RoundPages.Page(context, request, found, new RoundPages.Shown
            {
                Labels = new FormState(context.Request.Query.ToDictionary(q => q.Key, q => q.Value.ToString()), PageProblems.Fields(refused.Body), refused.Body.Detail),
            }, 422)
            : labels;
    }

    private static IResult Shown(HttpContext context, FormDoor door, Store store, string round, Func<HttpContext, HerdRequest, Round, IResult> print)
    {
        var (request, instead) = door.Look(context);
        return request is null ? instead!
            : RoundEndpoints.Find(store, request.Herd, round) is not { } found ? RoundPages.NoRound(round)
            : print(context, request.Herd, found) is var printed && printed is Problem refused ? PageResults.NotThere(T("round.there-is-no-such-manifest"), refused.Body.Detail)
            : printed;
    }
}
