using Microsoft.AspNetCore.Mvc;
using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Reading;
using ReproLink.Records;
using ReproLink.Web.Pages;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>Coming in by a link that opens once: she says who she is, and has a key. Looking at the page does not use it up.</summary>
internal static class WelcomePages
{
    /// <summary>How long a link opens, in hours.</summary>
    public const int UsualHours = 24;

    private const string Path = "/welcome/";

    public static string Link(string address, string secret) => $"{address}{Path}{secret}";

    public static void MapWelcome(this IEndpointRouteBuilder pages)
    {
        pages.MapGet(Path + "{secret}", static (HttpContext context, Store store, IClock clock, string secret) =>
            Refusal(context, store, clock, secret, out var link) ?? Page(context, secret, link!, null, null));
        pages.MapPost(Path + "{secret}", Post).WithMetadata(new ForAnyone());
    }

    private static async Task<IResult> Post(
        HttpContext context, Store store, PageSession session, IClock clock, string secret, [FromForm] string? name)
    {
        if (Refusal(context, store, clock, secret, out var link) is { } refusal)
        {
            return refusal;
        }

        var typed = name?.Trim() ?? "";
        if (!TextRule.Name.Accepts(typed))
        {
            return Page(context, secret, link!, T("welcome.badName"), typed, 422);
        }

        try
        {
            if (await store.SignInLinks.Use(secret, typed, clock.GetCurrentInstant()) is not { } key)
            {
                return Refusal(context, store, clock, secret, out _)!;
            }

            session.SignIn(context, key);
            return PageResults.Page<NewKeyPage>(context, new { Name = typed, Role = Caller.RoleWord(link!.Role), Key = key });
        }
        catch (KeyNameTakenException)
        {
            return Page(context, secret, link!, T("welcome.nameTaken", typed), typed, 422);
        }
    }

    private static IResult Page(HttpContext context, string secret, SignInLink link, string? problem, string? typed, int status = 200) =>
        PageResults.Page<WelcomePage>(context, new { Action = Path + secret, Role = Caller.RoleWord(link.Role), Problem = problem, Typed = typed }, status);

    private static IResult? Refusal(HttpContext context, Store store, IClock clock, string secret, out SignInLink? link)
    {
        link = store.SignInLinks.Find(secret);
        var sentence = link switch
        {
            null => T("welcome.unknown"),
            { Used: not null, UsedBy: var by } => T("welcome.used", by),
            _ when !link.Opens(clock.GetCurrentInstant()) => T("welcome.ended"),
            _ => null,
        };
        return sentence is null ? null : PageResults.Page<ProblemPage>(context, new { Heading = T("welcome.closed"), Detail = sentence }, link is null ? 404 : 410);
    }
}
