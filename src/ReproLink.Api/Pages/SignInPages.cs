using Microsoft.AspNetCore.Mvc;
using ReproLink.Web.Pages;

namespace ReproLink.Api.Pages;

/// <summary>Signing in with a key, and out.</summary>
internal static class SignInPages
{
    public static void MapSignIn(this IEndpointRouteBuilder pages)
    {
        pages.MapGet("/sign-in", static (HttpContext context, string? @return) => Page(context, null, @return, null));
        pages.MapPost("/sign-in", SignIn).WithMetadata(new ForAnyone());
        pages.MapPost("/sign-out", static (HttpContext context, [FromForm] string? _) =>
        {
            PageSession.SignOut(context);
            return Results.Redirect("/sign-in");
        }).WithMetadata(new ForAnyone());
    }

    /// <summary>The sign-in page, with a form that waits for it.</summary>
    public static IResult Page(HttpContext context, string? problem, string? back, KeptForm? kept, int status = 200) =>
        PageResults.Page<SignInPage>(context, new { Problem = problem, Return = Local(back), Kept = kept?.Write() }, status);

    /// <summary>What stands in place of a page while nobody is signed in.</summary>
    public static IResult First(HttpContext context) =>
        // Come from another site, the browser kept the cookie back: a step from our own page brings it.
        context.Request.Headers["Sec-Fetch-Site"] == "cross-site"
            ? PageResults.Page<StepInPage>(context, new { Address = context.Request.Path + context.Request.QueryString })
            : Results.Redirect($"/sign-in?return={Uri.EscapeDataString(context.Request.Path + context.Request.QueryString)}");

    private static IResult SignIn(
        HttpContext context, PageSession session, [FromForm] string? key, [FromForm(Name = "return")] string? back, [FromForm(Name = KeptForm.Name)] string? kept)
    {
        var form = KeptForm.Read(kept);
        if (session.SignIn(context, key?.Trim() ?? "") is var (problem, status))
        {
            return Page(context, problem, back, form, status);
        }

        return form is null ? Results.LocalRedirect(Local(back)) : ExpiredForms.Offer(context, form, 200);
    }

    /// <summary>Only to a page of our own: never where an address from elsewhere points.</summary>
    public static string Local(string? path) =>
        path is { Length: > 0 } && path[0] == '/' && !path.StartsWith("//", StringComparison.Ordinal) && !path.Contains('\\', StringComparison.Ordinal) ? path : "/";
}
