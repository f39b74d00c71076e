using ReproLink.Api.Metering;

namespace ReproLink.Api.Problems;

/// <summary>The last word on every refusal: the same shape in every environment, whoever refused.</summary>
internal sealed partial class ProblemMiddleware(RequestDelegate next, ILogger<ProblemMiddleware> logger)
{
    public async Task InvokeAsync(HttpContext context)
    {
        try
        {
            await next(context);
            if (context.Response is { HasStarted: false, StatusCode: >= 400, ContentType: null })
            {
                await OfStatus(context, context.Response.StatusCode).WriteTo(context);
            }
        }
        catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested)
        {
            // The caller hung up; nobody is there to be answered.
        }
        catch (BadHttpRequestException refused) when (!context.Response.HasStarted)
        {
            context.Response.Clear();
            await OfStatus(context, refused.StatusCode).WriteTo(context);
        }
        catch (Exception failure) when (!context.Response.HasStarted)
        {
            LogFailure(logger, context.Request.Method, RequestMeter.RouteOf(context) ?? "none", context.TraceIdentifier, FailureText.Of(failure));
            context.Response.Clear();
            await Problem.Of(ProblemTypes.Internal, "The service failed on this request; the log says how.").WriteTo(context);
        }
    }

    private static Problem OfStatus(HttpContext context, int status)
    {
        var type = ProblemTypes.OfStatus(status);
        var detail = status switch
        {
            404 => $"There is nothing at {context.Request.Path}.",
            405 => $"{context.Request.Method} is not allowed here; allowed: {context.Response.Headers.Allow}.",
            _ => type.Title + ".",
        };
        return Problem.Of(type, detail);
    }

    [LoggerMessage(LogLevel.Error, "{Method} {Route} failed ({Trace}): {Failure}")]
    private static partial void LogFailure(ILogger logger, string method, string route, string trace, string failure);
}
