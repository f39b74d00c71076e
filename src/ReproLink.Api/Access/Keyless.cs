using System.Net;
using ReproLink.Api.Composition;

namespace ReproLink.Api.Access;

/// <summary>Whether a request without a key is let in: in trials only, and in the demo only from the machine itself.</summary>
internal sealed class Keyless(IHostEnvironment environment, ApiHostOptions options)
{
    public Caller? CallerOf(HttpContext context)
    {
        var local = environment.IsEnvironment(TestingEnvironment.Name)
            || (options.Demo && context.Connection.RemoteIpAddress is { } address && IPAddress.IsLoopback(address));
        return local ? Caller.Local : null;
    }
}
