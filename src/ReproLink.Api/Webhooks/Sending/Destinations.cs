using System.Net;
using System.Net.Sockets;
using System.Text;

namespace ReproLink.Api.Webhooks.Sending;

/// <summary>Finds the addresses of a name.</summary>
internal delegate Task<IPAddress[]> HostLookup(string host, CancellationToken ct);

/// <summary>A message is not sent there.</summary>
internal sealed class DestinationRefusedException(string message) : Exception(message);

/// <summary>
/// Where messages may go: judged when a webhook is made, so that whoever makes it is told, and again on every connection, for
/// a name may lead elsewhere by then. A connection is made to an address that was judged, never to the name.
/// </summary>
internal sealed class Destinations(WebhookOptions options, HostLookup lookup)
{
    public const int LongestUrl = 500;
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(3);
    private static readonly string[] InsideNames = ["localhost", "local", "internal", "home.arpa"];

    /// <summary>What a url may be.</summary>
    public string Allowed => options.AllowPrivate
        ? $"an absolute http or https address of at most {LongestUrl} characters, without user, password or fragment; names in their ASCII form"
        : $"an absolute https address on the public internet, of at most {LongestUrl} characters, without user, password or fragment; names in their ASCII form";

    /// <summary>Judges a url: as it is kept, or why it is refused.</summary>
    public async Task<(string? Url, string? Refusal)> Judge(string text, CancellationToken ct)
    {
        if (text.Length > LongestUrl || text.AsSpan().ContainsAnyInRange('\0', ' ') || !Uri.TryCreate(text, UriKind.Absolute, out var uri)
            || uri.Scheme is not ("https" or "http") || uri.Host.Length == 0 || !Ascii.IsValid(uri.Host) || uri.UserInfo.Length > 0 || uri.Fragment.Length > 0)
        {
            return (null, $"allowed: {Allowed}");
        }

        if (uri.Scheme == Uri.UriSchemeHttp && !options.AllowPrivate)
        {
            return (null, $"it is not encrypted; allowed: {Allowed}");
        }

        if (!options.AllowPrivate && IsInsideName(uri))
        {
            return (null, $"its name is known inside a network only; allowed: {Allowed}");
        }

        // A name that cannot be found just now may be found when there is something to send.
        var addresses = await TryAddresses(uri.IdnHost, ct);
        return addresses.Length == 0 || Reachable(addresses, out var where).Length > 0
            ? (uri.AbsoluteUri, null)
            : (null, $"it leads into {where}; allowed: {Allowed}");
    }

    /// <summary>Connects to an address that is allowed.</summary>
    public async ValueTask<Stream> Connect(SocketsHttpConnectionContext context, CancellationToken ct)
    {
        var end = context.DnsEndPoint;
        var addresses = Reachable(await Addresses(end.Host, ct), out var where);
        if (addresses.Length == 0)
        {
            throw new DestinationRefusedException($"Nothing was sent: the address leads into {where}.");
        }

        var socket = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
        try
        {
            await socket.ConnectAsync(addresses, end.Port, ct);
            return new NetworkStream(socket, ownsSocket: true);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }

    private IPAddress[] Reachable(IPAddress[] addresses, out string where)
    {
        where = addresses.Select(address => AddressRules.Refusal(address, options.AllowPrivate)).FirstOrDefault(refusal => refusal is not null) ?? "nothing";
        return [.. addresses.Where(address => AddressRules.Refusal(address, options.AllowPrivate) is null)];
    }

    private async Task<IPAddress[]> TryAddresses(string host, CancellationToken ct)
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(ct);
        patience.CancelAfter(Patience);
        try
        {
            return await Addresses(host, patience.Token);
        }
        catch (Exception notFound) when (notFound is SocketException || (notFound is OperationCanceledException && !ct.IsCancellationRequested))
        {
            return [];
        }
    }

    private async Task<IPAddress[]> Addresses(string host, CancellationToken ct) =>
        IPAddress.TryParse(host.Trim('[', ']'), out var address) ? [address] : await lookup(host, ct).WaitAsync(ct);

    private static bool IsInsideName(Uri uri)
    {
        var name = uri.IdnHost.TrimEnd('.');
        return uri.HostNameType == UriHostNameType.Dns
            && (!name.Contains('.', StringComparison.Ordinal)
                || Array.Exists(InsideNames, inside => name.EndsWith("." + inside, StringComparison.OrdinalIgnoreCase)));
    }
}
