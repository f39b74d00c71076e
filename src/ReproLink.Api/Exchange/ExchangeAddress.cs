using ReproLink.Api.Exchange.Messages;
using ReproLink.Records;

namespace ReproLink.Api.Exchange;

/// <summary>Absolute addresses: the standard's readers follow them as they are.</summary>
internal static class ExchangeAddress
{
    public static string Of(HttpContext context, LocationKey location, string noun) =>
        $"{Locations(context)}/{Uri.EscapeDataString(location.Scheme)}/{Uri.EscapeDataString(location.Id)}/{noun}";

    /// <summary>Where every location lies.</summary>
    public static string Locations(HttpContext context)
    {
        var request = context.Request;
        return $"{request.Scheme}://{request.Host.ToUriComponent()}{request.PathBase.ToUriComponent()}/locations";
    }

    public static ExchangeIdentifier Identifier(LocationKey location) => new() { Scheme = location.Scheme, Id = location.Id };
}
