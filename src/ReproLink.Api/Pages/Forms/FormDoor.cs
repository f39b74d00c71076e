using System.Text;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.Extensions.Primitives;
using NodaTime;
using ReproLink.Records;
using ReproLink.Web.Words;

namespace ReproLink.Api.Pages.Forms;

/// <summary>
/// Where the forms of the pages come in. One whose token or session is gone never gets here: <see cref="ExpiredForms"/> keeps
/// it, and afterwards it comes to be shown again.
/// </summary>
internal sealed class FormDoor(Store store, PageSession session, IClock clock)
{
    /// <summary>The field of a form that is only to be shown again, filled in.</summary>
    public const string AgainField = "again";

    /// <summary>The page's request, without a form.</summary>
    public (PageRequest? Request, IResult? Instead) Look(HttpContext context, string? notice = null) =>
        PageRequest.Of(context, store, session, clock, notice);

    /// <summary>The form, or the answer instead.</summary>
    public async Task<(PageForm? Form, IResult? Instead)> Read(HttpContext context)
    {
        var (request, instead) = PageRequest.Of(context, store, session, clock);
        if (request is null)
        {
            return (null, instead);
        }

        try
        {
            var form = await context.Request.ReadFormAsync(context.RequestAborted);
            var values = form.Where(f => !StringValues.IsNullOrEmpty(f.Value)).ToDictionary(f => f.Key, f => f.Value, StringComparer.Ordinal);
            foreach (var file in form.Files.Where(f => f.Length > 0))
            {
                // From here on a file is text like typed text, so that it can be shown again.
                values[file.Name] = await Text(file, context.RequestAborted);
                values[$"{file.Name}-name"] = Path.GetFileName(file.FileName);
            }

            return (new PageForm(request, values), null);
        }
        catch (DecoderFallbackException)
        {
            return (null, PageResults.NotThere(Say.NoText, Say.NoTextDetail, StatusCodes.Status422UnprocessableEntity));
        }
    }

    private static async Task<string> Text(IFormFile file, CancellationToken ct)
    {
        using var reader = new StreamReader(file.OpenReadStream(), new UTF8Encoding(false, throwOnInvalidBytes: true));
        return await reader.ReadToEndAsync(ct);
    }
}

/// <summary>Forms among the endpoints of pages.</summary>
internal static class FormEndpoints
{
    /// <summary>Maps a form: its token is checked before it is read, and after its page grew old it is first shown again.</summary>
    public static void MapForm(this IEndpointRouteBuilder herd, string path, Delegate handler) => herd.MapPost(path, handler)
        .WithMetadata(new RequireAntiforgeryTokenAttribute(), new ShownAgain(FormDoor.AgainField, "yes"));
}
