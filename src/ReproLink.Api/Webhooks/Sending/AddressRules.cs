using System.Net;
using System.Net.Sockets;

namespace ReproLink.Api.Webhooks.Sending;

/// <summary>
/// Which addresses messages may be sent to. Whoever registers an address makes this service send to it, so that addresses which
/// only this machine or its network can reach are refused. Source of the ranges: the registries of special-purpose addresses of
/// RFC 6890 for IPv4 and IPv6, and RFC 4291 (global unicast is 2000::/3), from memory.
/// </summary>
internal static class AddressRules
{
    private const string Own = "this machine";
    private const string Private = "a private network";
    private const string LinkLocal = "the link-local range";
    private const string Multicast = "a multicast range";
    private const string Reserved = "a reserved range";

    // Allowed by the option: where a receiver of the farm's own may be.
    private static readonly Range[] Inside =
    [
        new("127.0.0.0/8", Own), new("::1/128", Own),
        new("10.0.0.0/8", Private), new("172.16.0.0/12", Private), new("192.168.0.0/16", Private), new("100.64.0.0/10", Private), new("fc00::/7", Private),
    ];

    // Never allowed: no receiver is there. Link-local is where hosts of virtual machines tell secrets.
    private static readonly Range[] Nowhere =
    [
        new("169.254.0.0/16", LinkLocal), new("fe80::/10", LinkLocal),
        new("224.0.0.0/4", Multicast), new("ff00::/8", Multicast),
        new("0.0.0.0/8", Reserved), new("192.0.0.0/24", Reserved), new("192.0.2.0/24", Reserved), new("192.88.99.0/24", Reserved), new("198.18.0.0/15", Reserved),
        new("198.51.100.0/24", Reserved), new("203.0.113.0/24", Reserved), new("240.0.0.0/4", Reserved),
        new("2001::/23", Reserved), new("2001:db8::/32", Reserved), new("2002::/16", Reserved), new("3fff::/20", Reserved),
    ];

    private static readonly IPNetwork Global = IPNetwork.Parse("2000::/3");
    private static readonly IPNetwork Translated = IPNetwork.Parse("64:ff9b::/96");

    /// <summary>Where an address lies that is refused; null = it is allowed.</summary>
    public static string? Refusal(IPAddress address, bool allowPrivate)
    {
        var meant = Meant(address);
        if (Find(Nowhere, meant) is { } nowhere)
        {
            return nowhere;
        }

        if (Find(Inside, meant) is { } inside)
        {
            return allowPrivate ? null : inside;
        }

        return meant.AddressFamily == AddressFamily.InterNetwork || Global.Contains(meant) ? null : Reserved;
    }

    // An IPv4 address in the clothes of an IPv6 one is judged as what it is.
    private static IPAddress Meant(IPAddress address)
    {
        if (address.IsIPv4MappedToIPv6)
        {
            return address.MapToIPv4();
        }

        // A scope (fe80::1%2) would keep it out of every range.
        var plain = address.AddressFamily == AddressFamily.InterNetworkV6 ? new IPAddress(address.GetAddressBytes()) : address;
        return plain.AddressFamily == AddressFamily.InterNetworkV6 && Translated.Contains(plain) ? new IPAddress(plain.GetAddressBytes().AsSpan(12)) : plain;
    }

    private static string? Find(Range[] ranges, IPAddress address) => Array.Find(ranges, range => range.Network.Contains(address))?.Name;

    private sealed record Range(IPNetwork Network, string Name)
    {
        public Range(string network, string name)
            : this(IPNetwork.Parse(network), name)
        {
        }
    }
}
