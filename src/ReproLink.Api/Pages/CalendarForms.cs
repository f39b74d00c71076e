using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Feeds;
using ReproLink.Api.Problems;
using ReproLink.Api.Programmes;
using ReproLink.Api.Reading;
using ReproLink.Records;
using ReproLink.Web.Forms;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>What is said on the veterinarian's calendar: seen, approved, refused; links to subscribe by.</summary>
internal static class CalendarForms
{
    public static void MapCalendarForms(this IEndpointRouteBuilder herd)
    {
        herd.MapPost("/calendar/seen", Seen);
        herd.MapPost("/calendar/approve", Approve);
        herd.MapPost("/calendar/refuse", Refuse);
        herd.MapPost("/calendar/links", MakeLink);
        herd.MapPost("/calendar/links/revoke", RevokeLink);
    }

    // The page was known at a moment; what came between is not taken as seen.
    private static async Task<IResult> Seen(HttpContext context, Store store, PageSession session, IClock clock, IFormCollection form)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var until = Reading.Dates.TryInstant(form["knownAt"].ToString(), out var at) && at <= request.View.KnownAt ? at : request.View.KnownAt;
        await store.Visits.Seen(request.View.Herd, request.Caller.Name, until);
        return Back(request, "seen");
    }

    private static async Task<IResult> Approve(HttpContext context, Store store, PageSession session, IClock clock, IFormCollection form)
    {
        var (request, instead) = Of(context, store, session, clock, Permissions.Approve);
        if (request is null)
        {
            return instead!;
        }

        var saved = Saved(store, request);
        var reader = Reader(form, "version", "expires");
        var (version, expires) = ApprovalEndpoint.Read(reader, saved, request.View.AsOf);
        if (reader.Problems.Any)
        {
            return await CalendarPages.Again(context, store, request, shown => shown with { Approval = Filled(form, reader.Problems) }, 422);
        }

        await store.Programmes.Approve(request.View.Herd, version, request.Caller.Name, expires, request.Now);
        return Back(request, "approved");
    }

    private static async Task<IResult> Refuse(HttpContext context, Store store, PageSession session, IClock clock, IFormCollection form)
    {
        var (request, instead) = Of(context, store, session, clock, Permissions.Approve);
        if (request is null)
        {
            return instead!;
        }

        var reader = Reader(form, "version", "note");
        var (version, note) = RefusalEndpoint.Read(reader, Saved(store, request));
        if (reader.Problems.Any)
        {
            return await CalendarPages.Again(context, store, request, shown => shown with { Refusal = Filled(form, reader.Problems) }, 422);
        }

        await store.Programmes.Refuse(request.View.Herd, version, request.Caller.Name, note, request.Now);
        return Back(request, "refused");
    }

    private static async Task<IResult> MakeLink(HttpContext context, Store store, PageSession session, IClock clock, IFormCollection form)
    {
        var (request, instead) = Of(context, store, session, clock, Permissions.PostFacts);
        if (request is null)
        {
            return instead!;
        }

        var reader = Reader(form, "name", "style");
        var (name, style) = FeedEndpoints.Read(reader);
        if (!reader.Problems.Any && store.Feeds.List(request.View.Herd).Any(l => l.Name == name && l.Revoked is null))
        {
            reader.Refuse("name", ProblemTypes.InvalidValue, T("calendar.link-name-taken"));
        }

        if (reader.Problems.Any)
        {
            return await CalendarPages.Again(context, store, request, shown => shown with { Link = Filled(form, reader.Problems) }, 422);
        }

        var (secret, _) = await store.Feeds.Create(request.View.Herd, name, style, request.Caller.Name, request.Now);
        var location = request.View.Herd.Location;
        var path = $"/locations/{Uri.EscapeDataString(location.Scheme)}/{Uri.EscapeDataString(location.Id)}";
        return await CalendarPages.Again(context, store, request, shown => shown with { NewAddress = FeedEndpoints.AddressOf(context, path, secret) }, 200);
    }

    private static async Task<IResult> RevokeLink(HttpContext context, Store store, PageSession session, IClock clock, IFormCollection form)
    {
        var (request, instead) = Of(context, store, session, clock, Permissions.PostFacts);
        if (request is null)
        {
            return instead!;
        }

        if (long.TryParse(form["link"], out var link))
        {
            await store.Feeds.Revoke(request.View.Herd, link, request.Now);
        }

        return Back(request, "link-revoked");
    }

    private static (PageRequest? Request, IResult? Instead) Of(HttpContext context, Store store, PageSession session, IClock clock, Permissions needed)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        return request is null ? (null, instead)
            : request.Caller.Can(needed) ? (request, null)
            : (null, PageResults.NotAllowed(T("refusal.only-roles", Caller.RolesThatCan(needed))));
    }

    private static SavedProgramme[] Saved(Store store, PageRequest request) => [.. store.Programmes.List(request.View.Herd, null).Where(p => !p.Draft)];

    private static ObjectReader Reader(IFormCollection form, params string[] names) =>
        new(FormJson.Element(names.Select(n => (n, (string?)form[n].ToString()))), new FieldProblems());

    private static FilledForm Filled(IFormCollection form, FieldProblems problems) => new(FormJson.Values(form), FormJson.Problems(problems));

    private static IResult Back(PageRequest request, string notice) => Results.Redirect($"{request.Frame.Path}/calendar?notice={notice}");
}
