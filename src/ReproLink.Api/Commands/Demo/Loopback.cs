using System.Net;
using System.Net.Sockets;

namespace ReproLink.Api.Commands.Demo;

/// <summary>Addresses of the demo: the machine itself only, because no key is needed.</summary>
internal static class Loopback
{
    private const int PortsTried = 50;

    /// <summary>The first free port from one on.</summary>
    public static int FreePort(int wanted)
    {
        for (var port = wanted; port < wanted + PortsTried && port <= IPEndPoint.MaxPort; port++)
        {
            if (IsFree(port))
            {
                return port;
            }
        }

        throw new CommandException($"None of the ports {wanted} to {wanted + PortsTried - 1} is free. Choose another with --port.", CommandLine.Failed);
    }

    /// <summary>Refuses an address that others could reach.</summary>
    public static Uri Read(string url)
    {
        if (!Uri.TryCreate(url, UriKind.Absolute, out var address) || address.Scheme != Uri.UriSchemeHttp || address.AbsolutePath != "/")
        {
            throw new CommandException($"--urls {url}: write one address such as http://127.0.0.1:5080.");
        }

        return address.IsLoopback
            ? address
            : throw new CommandException($"--urls {url}: the demo needs no key, so it listens on the machine itself only, e.g. http://127.0.0.1:5080.");
    }

    private static bool IsFree(int port)
    {
        try
        {
            using var listener = new TcpListener(IPAddress.Loopback, port);
            listener.Start();
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }
}
