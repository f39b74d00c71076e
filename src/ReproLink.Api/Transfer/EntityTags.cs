using System.Security.Cryptography;
using Microsoft.Extensions.Primitives;
using Microsoft.Net.Http.Headers;

namespace ReproLink.Api.Transfer;

/// <summary>Mark of a read that is tagged: one whose answer does not name the moment at which it was asked, for that never repeats.</summary>
internal sealed record Tagged;

/// <summary>
/// Tags a read by its content, and answers 304 to a reader who has it. The tag is weak: two answers of one tag say the same,
/// whatever bytes carry them.
/// </summary>
internal sealed class EntityTags(RequestDelegate next)
{
    public async Task InvokeAsync(HttpContext context)
    {
        if (context.GetEndpoint()?.Metadata.GetMetadata<Tagged>() is null)
        {
            await next(context);
            return;
        }

        var sent = context.Response.Body;
        using var body = new MemoryStream();
        context.Response.Body = body;
        try
        {
            await next(context);
        }
        finally
        {
            context.Response.Body = sent;
        }

        await Send(context, body);
    }

    private static async Task Send(HttpContext context, MemoryStream body)
    {
        var response = context.Response;
        if (response.StatusCode == StatusCodes.Status200OK && StringValues.IsNullOrEmpty(response.Headers.ETag))
        {
            var tag = TagOf(body);
            response.Headers.ETag = tag.ToString();
            if (Has(context.Request, tag))
            {
                response.StatusCode = StatusCodes.Status304NotModified;
                response.ContentType = null;
                response.ContentLength = null;
                return;
            }
        }

        if (body.Length > 0)
        {
            body.Position = 0;
            await body.CopyToAsync(response.Body, context.RequestAborted);
        }
    }

    private static EntityTagHeaderValue TagOf(MemoryStream body)
    {
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(body.GetBuffer().AsSpan(0, (int)body.Length), hash);
        return new EntityTagHeaderValue($"\"{Convert.ToHexStringLower(hash[..12])}\"", isWeak: true);
    }

    private static bool Has(HttpRequest request, EntityTagHeaderValue tag) =>
        request.GetTypedHeaders().IfNoneMatch.Any(has => has.Tag == "*" || has.Compare(tag, useStrongComparison: false));
}
