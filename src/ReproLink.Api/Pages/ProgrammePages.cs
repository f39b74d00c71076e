using Microsoft.AspNetCore.Mvc;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Protocols;
using ReproLink.Records;
using ReproLink.Web.Pages;
using ReproLink.Web.Programmes;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>The programme: what governs, its settings in a form, the check, the versions and the veterinarian's approval.</summary>
internal static class ProgrammePages
{
    public static void MapProgrammePage(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/programme", Get);
        herd.MapPost("/programme", ProgrammeSaving.Post).WithMetadata(new ShownAgain("do", "check"));
        herd.MapPost("/programme/check", ProgrammeSaving.Check);
        herd.MapPost("/programme/approve", Approve);
        herd.MapPost("/programme/protocols/confirm", Confirm);
    }

    private static IResult Get(HttpContext context, Store store, PageSession session, IClock clock, [FromQuery] int? from)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock, Notices.Of(context.Request.Query["notice"]));
        return request is null ? instead! : Page(context, store, request, Shown(store, request, from));
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
            return PageResults.NotThere(T("prog.this-cannot-be-approved"), T("prog.only-a-veterinarians-key-approves"));
        }

        var until = (Day?)null;
        if (!string.IsNullOrWhiteSpace(expires))
        {
            if (!Reading.Dates.TryDay(expires, out var day) || day < request.View.AsOf)
            {
                return Page(context, store, request, Shown(store, request, null), (T("approve.chooseDay", Say.LongDay(request.View.AsOf)), expires), status: 422);
            }

            until = day;
        }

        await store.Programmes.Approve(request.View.Herd, version, request.Caller.Name, until, request.Now);
        return Results.Redirect($"{request.Frame.Path}/programme?notice=approved");
    }

    private static async Task<IResult> Confirm(HttpContext context, Store store, PageSession session, IClock clock, [FromForm] string protocol)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        if (!request.Caller.Can(Permissions.Approve) || ProtocolLibrary.Find(protocol) is null)
        {
            return PageResults.NotThere(T("prog.this-cannot-be-confirmed"), T("prog.only-a-veterinarians-key-answers"));
        }

        await store.Protocols.Confirm(request.View.Herd, protocol, request.Caller.Name, request.Now);
        return Results.Redirect($"{request.Frame.Path}/programme?notice=confirmed");
    }

    /// <summary>The page around a form.</summary>
    public static IResult Page(
        HttpContext context, Store store, PageRequest request, ProgrammeModel model, (string Sentence, string Typed)? approval = null, string? stale = null, int status = 200) =>
        PageResults.Page<ProgrammePage>(context, new
        {
            Shown = request.Frame,
            Model = model,
            Versions = ProgrammeModels.Versions(store, request, model),
            Stale = stale,
            Problem = approval?.Sentence,
            Expires = approval?.Typed,
        }, status);

    // The form of the version in force, or of the one asked for.
    private static ProgrammeModel Shown(Store store, PageRequest request, int? from)
    {
        var saved = store.Programmes.List(request.View.Herd, null);
        var version = saved.FirstOrDefault(s => s.Version.Number == from)?.Version ?? request.View.Rules.On(request.View.AsOf);
        return ProgrammeModels.Of(store, request, SettingValues.Of(version.Programme), request.View.AsOf.ToString(), saved.Count);
    }
}
