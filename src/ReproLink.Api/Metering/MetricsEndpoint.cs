using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;

namespace ReproLink.Api.Metering;

/// <summary>What a watcher reads.</summary>
internal static class MetricsEndpoint
{
    private const string MediaType = "text/plain";

    private const string Example = """
        # HELP reprolink_request_duration_seconds Time from a request's arrival to the end of its answer.
        # TYPE reprolink_request_duration_seconds histogram
        reprolink_request_duration_seconds_count{method="GET",route="/locations/{scheme}/{id}/bleed-list",status="200"} 12
        # HELP reprolink_writes_waiting Writes that wait for the writer now.
        # TYPE reprolink_writes_waiting gauge
        reprolink_writes_waiting 0

        """;

    public static void MapMetrics(this IEndpointRouteBuilder app) => app.MapGet("/metrics", Get)
        .Describe("Service", "getMetrics", "Metrics", """
            For Prometheus, in its text form: request durations by route, the writer, memory, results that wait. No animal, herd or key is named. Needs a key
            that sees every location, of any role; the setting `Metrics:Open=true` opens it to everybody who reaches the service.
            """)
        .WithMetadata(new TakesKey())
        .Answers(200, "The metrics.", MediaType, typeof(string), Example)
        .Refuses(403);

    private static async Task Get(HttpContext context, ServiceMetrics metrics, IConfiguration configuration)
    {
        if (Refusal(context, configuration) is { } refused)
        {
            await refused.WriteTo(context);
            return;
        }

        context.Response.ContentType = MediaType + "; version=0.0.4; charset=utf-8";
        context.Response.Headers.CacheControl = "no-store";
        await metrics.Write(context.Response.Body, context.RequestAborted);
    }

    // A request from this machine is no sign of trust: behind a proxy every one looks so.
    private static Problem? Refusal(HttpContext context, IConfiguration configuration)
    {
        if (configuration.GetValue("Metrics:Open", false))
        {
            return null;
        }

        return context.Features.Get<Caller>() switch
        {
            null => Problem.Of(ProblemTypes.KeyRequired, "This address needs a key: send `Authorization: Bearer KEY`."),
            { Locations: not null } one => Problem.Of(ProblemTypes.NotPermitted, $"The key '{one.Name}' is bound to locations; metrics are about all of them."),
            _ => null,
        };
    }
}
