using Microsoft.AspNetCore.Hosting;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Contract;

/// <summary>The service behind a real web server, so that what a client writes is what arrives.</summary>
public sealed class ContractHost : ApiHostFixture
{
    /// <summary>Small, so that bodies over it can be sent often.</summary>
    public const int LargestBody = 200_000;

    public ContractHost()
    {
        UseKestrel(0);
        StartServer();
    }

    /// <summary>Where it listens.</summary>
    public Uri Address => ClientOptions.BaseAddress;

    /// <summary>A client that shows answers as they come.</summary>
    public HttpClient Client() => new(new SocketsHttpHandler { AllowAutoRedirect = false, UseCookies = false, RequestHeaderEncodingSelector = (_, _) => System.Text.Encoding.UTF8 })
    {
        BaseAddress = Address,
        Timeout = TimeSpan.FromMinutes(2),
    };

    /// <summary>Keys of every kind: all that may do something, one that sees one location, one that was revoked.</summary>
    public async Task<IReadOnlyList<string>> Keys(LocationKey seen)
    {
        var now = NodaTime.Instant.FromUtc(2026, 10, 1, 0, 0);
        var made = new List<string>();
        foreach (var role in Enum.GetValues<KeyRole>())
        {
            made.Add((await Store.Keys.Create($"{role}".ToLowerInvariant(), role, null, now)).Secret);
        }

        made.Add((await Store.Keys.Create("one", KeyRole.Manager, [seen], now)).Secret);
        return made;
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        base.ConfigureWebHost(builder);
        // After every day the document's examples name, so that they are of the past.
        builder.UseSetting("Clock", "2026-10-20T12:00:00Z");
        builder.UseSetting("Limits:BodyBytes", $"{LargestBody}");
        builder.UseSetting("Limits:RequestsPerMinute", "0");
        builder.UseSetting("Limits:WrongKeysPerMinute", "0");
    }
}
