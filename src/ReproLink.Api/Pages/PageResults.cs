using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http.HttpResults;
using ReproLink.Web.Pages;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>Pages as answers, with the headers that keep them to themselves.</summary>
internal static class PageResults
{
    private const string Policy =
        "default-src 'none'; style-src 'self'; script-src 'self'; connect-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    public static IResult Page<T>(HttpContext context, object parameters, int status = 200)
        where T : IComponent
    {
        Protect(context.Response.Headers);
        return new RazorComponentResult<T>(parameters) { StatusCode = status };
    }

    /// <summary>Runs nothing but our own, is shown in no other site's frame and kept by nobody.</summary>
    public static void Protect(IHeaderDictionary headers)
    {
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "same-origin";
        headers.CacheControl = "no-store";
    }

    public static IResult NotAllowed(string detail) => NotThere(T("refusal.not-allowed"), detail, 403);

    public static IResult NoSuchHerd() => NotThere(T("refusal.there-is-no-such-herd"), T("refusal.it-was-never-created-or-your-key"));

    public static IResult NotThere(string heading, string detail, int status = 404) =>
        new RazorComponentResult<ProblemPage>(new { Heading = heading, Detail = detail }) { StatusCode = status };
}
