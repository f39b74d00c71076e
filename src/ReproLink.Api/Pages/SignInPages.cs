using Microsoft.AspNetCore.Mvc;
using ReproLink.Web.Pages;

namespace ReproLink.Api.Pages;

/// <summary>Signing in with a key, and out.</summary>
internal static class SignInPages
{
    public static void MapSignIn(this IEndpointRouteBuilder pages)
    {
        pages.MapGet("/sign-in", static (HttpContext context, string? @return) =>
            PageResults.Page<SignInPage>(context, new { Problem = (string?)null, Return = Local(@return) }));
        pages.MapPost("/sign-in", static (HttpContext context, PageSession session, [FromForm] string key, [FromForm(Name = "return")] string? back) =>
            session.SignIn(context, key.Trim())
                ? Results.LocalRedirect(Local(back))
                : PageResults.Page<SignInPage>(context, new { Problem = (string?)"This key is not known, or it was revoked.", Return = Local(back) }, 422));
        pages.MapGet("/sign-out", static (HttpContext context) =>
        {
            PageSession.SignOut(context);
            return Results.Redirect("/sign-in");
        });
    }

    // Only to a page of our own: never where an address from elsewhere points.
    private static string Local(string? path) =>
        path is { Length: > 0 } && path[0] == '/' && !path.StartsWith("//", StringComparison.Ordinal) && !path.Contains('\\', StringComparison.Ordinal) ? path : "/";
}
