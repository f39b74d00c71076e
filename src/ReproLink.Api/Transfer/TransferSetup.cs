using Microsoft.AspNetCore.ResponseCompression;

namespace ReproLink.Api.Transfer;

/// <summary>How answers travel: compressed where the reader takes it, and not again when nothing changed.</summary>
internal static class TransferSetup
{
    public static void AddTransfer(this IServiceCollection services) => services.AddResponseCompression(o =>
    {
        // Answers hold no secret of the service beside words of a caller, so that their length tells nothing.
        o.EnableForHttps = true;
        o.MimeTypes = [.. ResponseCompressionDefaults.MimeTypes, "application/problem+json", "text/csv", "text/calendar"];
    });

    /// <summary>Marks a read whose answers are tagged.</summary>
    public static TBuilder Tags<TBuilder>(this TBuilder endpoint)
        where TBuilder : IEndpointConventionBuilder =>
        endpoint.WithMetadata(new Tagged());
}
