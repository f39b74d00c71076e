using System.Diagnostics;

namespace ReproLink.Api.Metering;

/// <summary>
/// Times every request and, where asked for, writes a line of it. Both name the route, never the address: that may hold an
/// animal, a herd or the secret of a link.
/// </summary>
internal sealed partial class RequestMeter(RequestDelegate next, ServiceMetrics metrics, ILoggerFactory loggers)
{
    /// <summary>Category of the lines; one a request at <c>Debug</c>.</summary>
    public const string Category = "ReproLink.Requests";

    private readonly ILogger _logger = loggers.CreateLogger(Category);

    public async Task InvokeAsync(HttpContext context)
    {
        var started = Stopwatch.GetTimestamp();
        try
        {
            await next(context);
        }
        finally
        {
            var took = Stopwatch.GetElapsedTime(started);
            var route = RouteOf(context);
            metrics.Request(context.Request.Method, route, context.Response.StatusCode, took);
            if (_logger.IsEnabled(LogLevel.Debug))
            {
                LogRequest(_logger, context.Request.Method, route ?? "none", context.Response.StatusCode, took.TotalMilliseconds, context.TraceIdentifier);
            }
        }
    }

    /// <summary>The route a request took, with its varying parts in braces; null when it reached none.</summary>
    public static string? RouteOf(HttpContext context) => (context.GetEndpoint() as RouteEndpoint)?.RoutePattern.RawText;

    [LoggerMessage(LogLevel.Debug, "{Method} {Route} {Status} in {Milliseconds} ms ({Trace})")]
    private static partial void LogRequest(ILogger logger, string method, string route, int status, double milliseconds, string trace);
}
