using Microsoft.Net.Http.Headers;
using ReproLink.Web.Words;

namespace ReproLink.Api.Pages;

/// <summary>Where a browser keeps how somebody reads. It says nothing of who she is.</summary>
internal static class ReaderCookie
{
    private const string Cookie = "reprolink-reader";

    private static readonly TimeSpan Lasts = TimeSpan.FromDays(365);

    /// <summary>Her own choice; else what her browser says of its language.</summary>
    public static Reader Of(HttpRequest request) => Reader.Parse(request.Cookies[Cookie]) ?? Reader.Of(
        request.GetTypedHeaders().AcceptLanguage
            .Where(wanted => wanted.Quality is not 0)
            .OrderByDescending(wanted => wanted.Quality ?? 1)
            .Select(wanted => wanted.Value.ToString()));

    public static void Append(HttpContext context, Reader reader) => context.Response.Cookies.Append(Cookie, reader.ToString(), Options(context, Lasts));

    public static void Delete(HttpContext context) => context.Response.Cookies.Delete(Cookie, Options(context, null));

    private static CookieOptions Options(HttpContext context, TimeSpan? lasts) => new()
    {
        HttpOnly = true,
        SameSite = Microsoft.AspNetCore.Http.SameSiteMode.Lax,
        Secure = context.Request.IsHttps,
        MaxAge = lasts,
        Path = "/",
        IsEssential = true,
    };
}

/// <summary>Mark of what is read by people.</summary>
internal sealed record ForPeople;

/// <summary>Before a page is made it is known who reads it, and what is sent says that it hangs on that.</summary>
internal sealed class PageReader(RequestDelegate next)
{
    public Task InvokeAsync(HttpContext context)
    {
        if (context.GetEndpoint()?.Metadata.GetMetadata<ForPeople>() is not null)
        {
            ReaderCookie.Of(context.Request).Begin();
            context.Response.OnStarting(static state =>
            {
                var response = ((HttpContext)state).Response;
                if (response.ContentType?.StartsWith("text/html", StringComparison.Ordinal) == true)
                {
                    response.Headers.Append(HeaderNames.Vary, "Cookie, Accept-Language");
                    if (response.Headers.ContentSecurityPolicy.Count == 0)
                    {
                        PageResults.Protect(response.Headers); // What says that a page is not there is a page as well.
                    }
                }

                return Task.CompletedTask;
            }, context);
        }

        return next(context);
    }
}
