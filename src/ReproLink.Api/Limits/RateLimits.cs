using System.Globalization;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using ReproLink.Api.Access;
using ReproLink.Api.Metering;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Limits;

/// <summary>
/// No caller may take the service away from the others. Every key has an allowance of its own, refilled steadily; whoever
/// asks without one shares that of the address.
/// </summary>
internal static class RateLimits
{
    private static readonly TimeSpan Refilled = TimeSpan.FromSeconds(1);

    public static void AddLimits(this IServiceCollection services)
    {
        services.AddSingleton(s => ServiceLimits.Of(s.GetRequiredService<IConfiguration>()));
        services.AddSingleton<WrongKeys>();
        // The body reader answers with a problem; the server's own limit stands just above it for bodies nobody reads.
        services.AddOptions<KestrelServerOptions>().Configure<ServiceLimits>((server, limits) => server.Limits.MaxRequestBodySize = limits.BodyBytes + 1);
        services.AddRateLimiter(_ => { });
        services.AddOptions<RateLimiterOptions>().Configure<ServiceLimits, ServiceMetrics>((options, limits, metrics) =>
        {
            if (limits.RequestsPerMinute == 0)
            {
                return;
            }

            options.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, (bool Keyed, string Name)>(context =>
                RateLimitPartition.GetTokenBucketLimiter(Whose(context), _ => Allowance(limits.RequestsPerMinute)));
            options.OnRejected = (rejected, _) =>
            {
                metrics.Limited();
                return new ValueTask(Refuse(rejected.HttpContext, rejected.Lease, $"More than {limits.RequestsPerMinute} requests a minute came from this caller."));
            };
        });
    }

    /// <summary>An address, for counting; never written anywhere.</summary>
    public static string AddressOf(HttpContext context) => context.Connection.RemoteIpAddress?.ToString() ?? "";

    /// <summary>Too many: when to try again stands in <c>Retry-After</c>.</summary>
    public static Task Refuse(HttpContext context, RateLimitLease lease, string detail)
    {
        var wait = lease.TryGetMetadata(MetadataName.RetryAfter, out var after) ? after : Refilled;
        var seconds = Math.Max(1, (int)Math.Ceiling(wait.TotalSeconds));
        context.Response.Headers.RetryAfter = seconds.ToString(CultureInfo.InvariantCulture);
        return Problem.Of(ProblemTypes.TooManyRequests, $"{detail} Nothing was read or stored; try again in {seconds} s.").WriteTo(context);
    }

    private static (bool Keyed, string Name) Whose(HttpContext context) =>
        context.Features.Get<Caller>() is { } caller ? (true, caller.Name) : (false, AddressOf(context));

    private static TokenBucketRateLimiterOptions Allowance(int perMinute) => new()
    {
        TokenLimit = perMinute,
        TokensPerPeriod = Math.Max(1, perMinute / 60),
        ReplenishmentPeriod = perMinute >= 60 ? Refilled : TimeSpan.FromMinutes(1.0 / perMinute),
        QueueLimit = 0,
    };
}
