using ReproLink.Api.Pages.Forms;
using ReproLink.Calendar.Dates;
using ReproLink.Records;
using ReproLink.Web.Pages;
using ReproLink.Web.Results;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages.IncomingResults;

/// <summary>What was received, line by line, and what became of it.</summary>
internal static class ReceivedPages
{
    private const int LinesAPage = 500;

    public static void MapReceivedPages(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/results/received/{batch:long}", Get);
        herd.MapGet("/results/received", Behind);
    }

    private static IResult Get(HttpContext context, FormDoor door, Store store, long batch)
    {
        var (request, instead) = door.Look(context);
        if (request is null)
        {
            return instead!;
        }

        var after = context.Request.Query["after"].ToString();
        var page = store.Received.List(request.View.Herd, new ReceivedQuery { Batch = batch }, Cursor.IsValid(after) ? after : null, LinesAPage);
        return page.Items.Count == 0
            ? PageResults.NotThere(T("results.there-is-no-such-file"), T("results.nothing-was-received-under", batch))
            : PageResults.Page<ReceivedPage>(context, new
            {
                Shown = request.Frame,
                Batch = batch,
                First = page.Items[0],
                Day = Day.From(page.Items[0].At.InZone(request.Herd.Zone).Date),
                Rows = (IReadOnlyList<ResultRow>)page.Items.Select(line => ResultRows.Stored(line, store, request.View)).ToList(),
                page.Next,
            });
    }

    // From a held result to the line it came with.
    private static IResult Behind(HttpContext context, FormDoor door, Store store)
    {
        var (request, instead) = door.Look(context);
        if (request is null)
        {
            return instead!;
        }

        var lines = store.Received.List(request.View.Herd, new ReceivedQuery { HeldId = context.Request.Query["held"].ToString() }, null, 1);
        return lines.Items is [var line]
            ? Results.Redirect($"{request.Frame.Path}/results/received/{line.Batch}#line-{line.Line ?? line.Item}")
            : PageResults.NotThere(T("results.there-is-no-such-line"), T("results.it-did-not-come-with-a-file"));
    }
}
