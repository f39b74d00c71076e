using Microsoft.AspNetCore.Antiforgery;
using ReproLink.Web.Pages;
using ReproLink.Web.Words;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>Mark of a form that needs nobody signed in.</summary>
internal sealed record ForAnyone;

/// <summary>Mark of a form that is first shown again, and sent only when she says so there.</summary>
/// <param name="Field">The field that says what is to be done.</param>
/// <param name="Value">Its value that only shows the form.</param>
internal sealed record ShownAgain(string Field, string Value);

/// <summary>
/// A form sent after its page grew old (signed out meanwhile, or the page lay open too long) loses nothing: she signs in, and
/// what she typed is offered again. It is never sent by itself, and never taken from another site's page.
/// </summary>
internal sealed class ExpiredForms(RequestDelegate next)
{
    public async Task InvokeAsync(HttpContext context, PageSession session)
    {
        if (!HttpMethods.IsPost(context.Request.Method)
            || context.GetEndpoint() is not { } endpoint
            || endpoint.Metadata.GetMetadata<IAntiforgeryMetadata>() is not { RequiresValidation: true })
        {
            await next(context);
            return;
        }

        var isFresh = context.Features.Get<IAntiforgeryValidationFeature>() is not { IsValid: false };
        var isSignedIn = endpoint.Metadata.GetMetadata<ForAnyone>() is not null || session.CallerOf(context) is not null;
        if (isFresh && isSignedIn)
        {
            await next(context);
            return;
        }

        await (await Refusal(context, endpoint, isSignedIn)).ExecuteAsync(context);
    }

    private static async Task<IResult> Refusal(HttpContext context, Endpoint endpoint, bool isSignedIn)
    {
        try
        {
            return await Instead(context, endpoint, isSignedIn);
        }
        catch (Exception refused) when (refused is InvalidDataException or BadHttpRequestException)
        {
            // Not read to its end, so its token was never seen either.
            return PageResults.NotThere(Say.FormTooLarge, Say.FormTooLargeDetail, StatusCodes.Status413PayloadTooLarge);
        }
    }

    private static async Task<IResult> Instead(HttpContext context, Endpoint endpoint, bool isSignedIn)
    {
        // The framework guards the form of a request whose token is not valid; here it is read to be shown, not to be acted upon.
        context.Features.Set<IAntiforgeryValidationFeature>(null);
        if (IsFromElsewhere(context.Request) || !context.Request.HasFormContentType)
        {
            return PageResults.NotThere(T("refusal.this-form-was-not-ours"), T("refusal.it-was-sent-by-the-page"), 403);
        }

        var kept = KeptForm.Of(context.Request, await context.Request.ReadFormAsync(context.RequestAborted));
        if (endpoint.Metadata.GetMetadata<ShownAgain>() is { } again)
        {
            kept = kept with { Fields = [.. kept.Fields.Where(f => f.Name != again.Field), new KeptField(again.Field, again.Value)] };
        }

        if (!isSignedIn)
        {
            return SignInPages.Page(context, T("refusal.you-were-signed-out-meanwhile-sign"), "/", kept, 403);
        }

        return Offer(context, kept, 403);
    }

    /// <summary>The page that offers what was typed.</summary>
    public static IResult Offer(HttpContext context, KeptForm kept, int status) => PageResults.Page<KeptFormPage>(context, new
    {
        kept.Action,
        Fields = (IReadOnlyList<(string, string)>)[.. kept.Fields.Select(f => (f.Name, f.Value))],
        kept.Files,
    }, status);

    // Browsers say who began a request; one that does not say is not told apart, and still must be sent again by hand.
    private static bool IsFromElsewhere(HttpRequest request) =>
        request.Headers["Sec-Fetch-Site"].ToString() is "cross-site" or "same-site"
        || (request.Headers.Origin.ToString() is { Length: > 0 } origin
            && !(Uri.TryCreate(origin, UriKind.Absolute, out var from) && from.Authority == request.Host.Value));
}
