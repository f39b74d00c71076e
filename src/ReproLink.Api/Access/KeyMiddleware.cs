using System.Net.Http.Headers;
using ReproLink.Api.Limits;
using ReproLink.Api.Metering;
using ReproLink.Api.Problems;
using ReproLink.Records;

namespace ReproLink.Api.Access;

/// <summary>Says who asks. A wrong key is refused at every address, too many of them unread; a missing one only where a key is needed.</summary>
internal sealed class KeyMiddleware(RequestDelegate next)
{
    public async Task InvokeAsync(HttpContext context, Store store, Keyless keyless, WrongKeys wrongKeys, ServiceMetrics metrics)
    {
        if (context.Request.Headers.Authorization is not { Count: > 0 } sent)
        {
            if (keyless.CallerOf(context) is { } local)
            {
                context.Features.Set(local);
            }

            await next(context);
            return;
        }

        var right = Secret(sent) is { } secret ? store.Keys.Authenticate(secret) : null;
        if (wrongKeys.Refuses(RateLimits.AddressOf(context), right) is { } tooMany)
        {
            metrics.WrongKey();
            await RateLimits.Refuse(context, tooMany, WrongKeys.Detail);
            return;
        }

        if (right is not null)
        {
            context.Features.Set(Caller.Of(right));
            await next(context);
            return;
        }

        metrics.WrongKey();
        await Problem.Of(ProblemTypes.KeyUnknown, "The key sent is not known, or it was revoked. Send `Authorization: Bearer KEY`.").WriteTo(context);
    }

    private static string? Secret(Microsoft.Extensions.Primitives.StringValues sent) =>
        sent.Count == 1
        && AuthenticationHeaderValue.TryParse(sent[0], out var header)
        && header.Scheme.Equals("Bearer", StringComparison.OrdinalIgnoreCase)
        && header.Parameter is { Length: > 0 and <= 200 } secret
            ? secret
            : null;
}
