using Microsoft.AspNetCore.Mvc;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Programmes;
using ReproLink.Records;
using ReproLink.Web.Parts.Programme;
using ReproLink.Web.Programmes;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>What comes of the programme's form: checked, filled in by a suggestion, or saved; and always shown as it was typed.</summary>
internal static class ProgrammeSaving
{
    public static async Task<IResult> Post(HttpContext context, Store store, PageSession session, IClock clock, [FromForm] IFormCollection form)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        var more = new Dictionary<string, string>(StringComparer.Ordinal);
        // A span of days that was given and not yet added is meant: it is added whatever button was used.
        var values = ProgrammeFields.WithSpans(ProgrammeFields.Of(form), more);
        var (applied, filled) = Applied(values, form["apply"].ToString());
        var seen = int.TryParse(form["latest"], out var latest) ? latest : 0;
        var model = ProgrammeModels.Of(store, request, applied, InForceFrom(form, request), seen, more) with { Filled = filled };
        if (filled is not null || form["do"] != "save")
        {
            return ProgrammePages.Page(context, store, request, model);
        }

        if (!request.Caller.Can(Permissions.Manage))
        {
            return PageResults.NotAllowed(T("prog.only-a-managers-key-saves"));
        }

        return model.Read is null || model.Check is null
            ? ProgrammePages.Page(context, store, request, model, status: 422)
            : await Save(context, store, request, model);
    }

    /// <summary>The check alone, for the page to put in place while settings change.</summary>
    public static IResult Check(HttpContext context, Store store, PageSession session, IClock clock, [FromForm] IFormCollection form)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return instead!;
        }

        context.Response.Headers["X-Part"] = "check";
        var model = ProgrammeModels.Of(store, request, ProgrammeFields.Of(form), InForceFrom(form, request), 0);
        return PageResults.Page<CheckPart>(context, new { Shown = request.Frame, Model = model });
    }

    private static async Task<IResult> Save(HttpContext context, Store store, PageRequest request, ProgrammeModel model)
    {
        var herd = request.View.Herd;
        var saved = store.Programmes.List(herd, null);
        // Two managers at once: who comes second is told, and saves knowingly.
        if (saved.Count > model.Latest && saved[^1] is { } newer)
        {
            return ProgrammePages.Page(
                context, store, request, model with { Latest = saved.Count }, stale: T("prog.stale", newer.Version.Number, newer.SavedBy), status: 409);
        }

        var (_, _, json) = ProgrammeForm.Read(model.Values, model.InForceFrom, request.View.AsOf, ProtocolCatalogue.Of(store, herd));
        var draft = !model.Check!.IsFeasible;
        await store.Programmes.Save(herd, model.Read!, draft, json, request.Caller.Name, request.Now);
        return Results.Redirect($"{request.Frame.Path}/programme?notice={(draft ? "draft" : "saved")}");
    }

    private static string InForceFrom(IFormCollection form, PageRequest request) =>
        form["inForceFrom"].ToString().Trim() is { Length: > 0 } day ? day : request.View.AsOf.ToString();

    private static (SettingValues Values, string? Filled) Applied(SettingValues values, string suggestion)
    {
        var at = suggestion.IndexOf('=', StringComparison.Ordinal);
        return at > 0 && SettingBook.Find(suggestion[..at]) is { } setting
            ? (values.With(setting.Path, ChainLines.Values(setting, suggestion[(at + 1)..])), setting.Path)
            : (values, null);
    }
}
