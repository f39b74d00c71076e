using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using ReproLink.Api.Access;
using ReproLink.Api.Limits;
using ReproLink.Records;
using static ReproLink.Web.Words.Text;

namespace ReproLink.Api.Pages;

/// <summary>
/// Who is signed in on the pages. The key stands in the cookie, sealed; it counts on pages only, so that no other site can
/// make a browser write through the API.
/// </summary>
internal sealed class PageSession(IDataProtectionProvider protection, Store store, WrongKeys wrongKeys)
{
    private const string Cookie = "reprolink";

    /// <summary>How long she stays signed in; the seal ends with it, so a cookie kept longer opens nothing.</summary>
    private static readonly TimeSpan Lasts = TimeSpan.FromDays(30);

    private readonly ITimeLimitedDataProtector _seal = protection.CreateProtector("ReproLink.PageSession").ToTimeLimitedDataProtector();

    public Caller? CallerOf(HttpContext context)
    {
        if (context.Features.Get<Caller>() is { } caller)
        {
            return caller;
        }

        return context.Request.Cookies[Cookie] is { Length: > 0 } sealedKey && Open(sealedKey) is { } secret
            && store.Keys.Authenticate(secret) is { Revoked: null } key
            ? Caller.Of(key)
            : null;
    }

    /// <summary>Signs in.</summary>
    /// <returns>Why not, in a sentence, and the status that says so; null when it is done.</returns>
    public (string Problem, int Status)? SignIn(HttpContext context, string secret)
    {
        var right = store.Keys.Authenticate(secret);
        if (wrongKeys.Refuses(RateLimits.AddressOf(context), right) is not null)
        {
            return (T("signIn.too-many-wrong-keys-came-from-here"), StatusCodes.Status429TooManyRequests);
        }

        if (right is null)
        {
            return (T("signIn.this-key-is-not-known"), StatusCodes.Status422UnprocessableEntity);
        }

        context.Response.Cookies.Append(Cookie, _seal.Protect(secret, Lasts), Options(context, Lasts));
        return null;
    }

    public static void SignOut(HttpContext context) => context.Response.Cookies.Delete(Cookie, Options(context, null));

    // Strict: no request that another site began carries it.
    private static CookieOptions Options(HttpContext context, TimeSpan? lasts) => new()
    {
        HttpOnly = true,
        SameSite = SameSiteMode.Strict,
        Secure = context.Request.IsHttps,
        MaxAge = lasts,
        IsEssential = true,
    };

    private string? Open(string sealedKey)
    {
        try
        {
            return _seal.Unprotect(sealedKey);
        }
        catch (CryptographicException)
        {
            return null;
        }
    }
}
