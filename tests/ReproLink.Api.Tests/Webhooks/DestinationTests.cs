using System.Net;
using Microsoft.Extensions.Configuration;
using NodaTime;
using ReproLink.Api.Composition;
using ReproLink.Api.Tests.Support;
using ReproLink.Api.Webhooks.Sending;

namespace ReproLink.Api.Tests.Webhooks;

/// <summary>Whoever registers an address makes the service send to it: not into its own network.</summary>
public sealed class DestinationTests
{
    [Theory]
    // this machine
    [InlineData("127.0.0.1", false, true)]
    [InlineData("127.255.255.254", false, true)]
    [InlineData("::1", false, true)]
    [InlineData("::ffff:127.0.0.1", false, true)]
    // private networks
    [InlineData("10.0.0.1", false, true)]
    [InlineData("10.255.255.255", false, true)]
    [InlineData("172.15.255.255", true, true)]
    [InlineData("172.16.0.1", false, true)]
    [InlineData("172.31.255.255", false, true)]
    [InlineData("172.32.0.0", true, true)]
    [InlineData("192.168.1.1", false, true)]
    [InlineData("100.63.255.255", true, true)]
    [InlineData("100.64.0.1", false, true)]
    [InlineData("100.127.255.255", false, true)]
    [InlineData("100.128.0.0", true, true)]
    [InlineData("fc00::1", false, true)]
    [InlineData("fdff::1", false, true)]
    [InlineData("::ffff:10.0.0.1", false, true)]
    [InlineData("64:ff9b::10.0.0.1", false, true)]
    // nowhere anybody receives
    [InlineData("169.254.169.254", false, false)]
    [InlineData("::ffff:169.254.169.254", false, false)]
    [InlineData("64:ff9b::169.254.169.254", false, false)]
    [InlineData("fe80::1", false, false)]
    [InlineData("fe80::1%2", false, false)]
    [InlineData("fec0::1", false, false)]
    [InlineData("0.0.0.0", false, false)]
    [InlineData("0.1.2.3", false, false)]
    [InlineData("::", false, false)]
    [InlineData("::10.0.0.1", false, false)]
    [InlineData("224.0.0.1", false, false)]
    [InlineData("239.255.255.255", false, false)]
    [InlineData("240.0.0.1", false, false)]
    [InlineData("255.255.255.255", false, false)]
    [InlineData("ff02::1", false, false)]
    [InlineData("192.0.0.8", false, false)]
    [InlineData("192.0.2.1", false, false)]
    [InlineData("198.18.0.1", false, false)]
    [InlineData("198.19.255.255", false, false)]
    [InlineData("198.51.100.1", false, false)]
    [InlineData("203.0.113.1", false, false)]
    [InlineData("2001::1", false, false)]
    [InlineData("2001:db8::1", false, false)]
    [InlineData("2002:0a00:0001::1", false, false)]
    [InlineData("3fff::1", false, false)]
    [InlineData("64:ff9b:1::1", false, false)]
    [InlineData("4000::1", false, false)]
    // the internet
    [InlineData("9.255.255.255", true, true)]
    [InlineData("11.0.0.0", true, true)]
    [InlineData("126.255.255.255", true, true)]
    [InlineData("128.0.0.0", true, true)]
    [InlineData("169.253.255.255", true, true)]
    [InlineData("192.167.255.255", true, true)]
    [InlineData("192.169.0.0", true, true)]
    [InlineData("198.17.255.255", true, true)]
    [InlineData("198.20.0.0", true, true)]
    [InlineData("223.255.255.255", true, true)]
    [InlineData("2606:4700::1", true, true)]
    [InlineData("2a00::1", true, true)]
    [InlineData("::ffff:8.8.8.8", true, true)]
    [InlineData("64:ff9b::8.8.8.8", true, true)]
    public void Address_IsAllowed_WhereAReceiverMayBe(string address, bool usually, bool withPrivate)
    {
        Assert.Equal(usually, AddressRules.Refusal(IPAddress.Parse(address), allowPrivate: false) is null);
        Assert.Equal(withPrivate, AddressRules.Refusal(IPAddress.Parse(address), allowPrivate: true) is null);
    }

    // One service for all: starting one takes longer than all of them.
    private static readonly string[] Refused =
    [
        "http://receiver.example/hook",
        "https://127.0.0.1/",
        "https://127.1/",
        "https://2130706433/",
        "https://0x7f000001/",
        "https://0x7f.0.0.1/",
        "https://0177.0.0.1/",
        "https://[::1]/",
        "https://[::ffff:10.0.0.1]/",
        "https://[::ffff:a00:1]/",
        "https://169.254.169.254/latest/meta-data",
        "https://localhost/",
        "https://LOCALHOST./",
        "https://herd.localhost/",
        "https://printer.local/",
        "https://vault.internal/",
        "https://router.home.arpa/",
        "https://intranet/",
        "https://inside.example/",
        "https://１２７.0.0.1/",
        "file:///etc/passwd",
        "gopher://receiver.example/",
        "https://receiver.example/a b",
    ];

    [Fact]
    public async Task Registration_OfSuchAnAddress_IsRefused()
    {
        await using var host = new WebhookHost { AllowPrivate = false, Lookup = Book };
        var herd = await HerdClient.Create(host);
        foreach (var url in Refused)
        {
            var answer = await herd.Post("/webhooks", $$"""{"url":"{{url}}"}""");
            Assert.True(answer.Status == HttpStatusCode.BadRequest, url);
            var error = Assert.Single(answer["errors"].AsArray())!;
            Assert.Equal("/url", (string?)error["field"]);
            Assert.Contains("https", (string?)error["allowed"], StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Registration_OfAPublicAddress_IsAccepted_AlsoWhenItsNameIsNotFoundJustNow()
    {
        await using var host = new WebhookHost { AllowPrivate = false, Lookup = Book };
        var herd = await HerdClient.Create(host);
        await herd.Register("https://receiver.example/hook");
        await herd.Register("https://later.example/hook");
        await herd.Register("https://8.8.8.8/hook");
        await herd.Register("https://xn--bcher-kva.example/hook");
    }

    [Fact]
    public async Task NameThatLeadsInsideLater_IsNotConnectedTo()
    {
        await using var receiver = await Receiver.Start();
        var inside = false;
        // Public while it is registered, this machine when there is something to send.
        await using var host = new WebhookHost
        {
            AllowPrivate = false,
            Lookup = (_, _) => Task.FromResult<IPAddress[]>([IPAddress.Parse(inside ? "127.0.0.1" : "8.8.8.8")]),
        };
        var herd = await HerdClient.Create(host);
        var port = new Uri(receiver.Url).Port;
        var (webhook, _) = await herd.Register($"https://rebinding.example:{port}/hook");
        inside = true;
        await herd.Happen("o-1");
        await host.SendDue();
        Assert.Empty(receiver.All);
        var attempt = (await herd.Get($"/webhooks/{webhook}/deliveries"))["deliveries"][0]!["attempts"]![0]!;
        Assert.Equal("Nothing was sent: the address leads into this machine.", (string?)attempt["error"]);
        Assert.Null(attempt["status"]);
    }

    [Fact]
    public async Task NameWithAnAddressOutsideAndOneInside_IsConnectedOutsideOnly()
    {
        await using var receiver = await Receiver.Start();
        // With the option this machine is allowed and link-local never is.
        await using var host = new WebhookHost { Lookup = (_, _) => Task.FromResult<IPAddress[]>([IPAddress.Parse("169.254.169.254"), IPAddress.Loopback]) };
        var herd = await HerdClient.Create(host);
        await herd.Register($"http://both.example:{new Uri(receiver.Url).Port}/hook");
        await herd.Happen("o-1");
        await host.SendDue();
        Assert.Single(receiver.All);
    }

    [Fact]
    public async Task Redirect_IsNotFollowed()
    {
        await using var inside = await Receiver.Start();
        await using var receiver = await Receiver.Start();
        receiver.AnswerStatus(307, "Location", inside.Url);
        await using var host = new WebhookHost();
        var herd = await HerdClient.Create(host);
        var (webhook, _) = await herd.Register(receiver.Url);
        await herd.Happen("o-1");
        await host.SendDue();
        Assert.Single(receiver.All);
        Assert.Empty(inside.All);
        var delivery = (await herd.Get($"/webhooks/{webhook}/deliveries"))["deliveries"][0]!;
        Assert.Equal("waiting", (string?)delivery["state"]);
        Assert.Equal("The receiver answered 307: redirects are not followed, change the webhook's url.", (string?)delivery["attempts"]![0]!["error"]);
    }

    [Fact]
    public async Task ReceiverThatDoesNotAnswer_IsGivenUpAfterTheTimeout()
    {
        await using var receiver = await Receiver.Start();
        var over = new TaskCompletionSource();
        receiver.Answer = (_, _) => over.Task;
        await using var host = new WebhookHost { TimeoutSeconds = 1 };
        var herd = await HerdClient.Create(host);
        var (webhook, _) = await herd.Register(receiver.Url);
        await herd.Happen("o-1");
        await host.SendDue();
        over.SetResult();
        var attempt = (await herd.Get($"/webhooks/{webhook}/deliveries"))["deliveries"][0]!["attempts"]![0]!;
        Assert.Equal("There was no answer within 1 s.", (string?)attempt["error"]);
    }

    [Fact]
    public void Lease_OutlivesEveryAttempt()
    {
        var settings = new ConfigurationBuilder().AddInMemoryCollection([new("Webhooks:TimeoutSeconds", "600")]).Build();
        var options = WebhookOptions.From(settings, new ApiHostOptions());
        Assert.Equal((false, true, Duration.FromSeconds(60)), (options.AllowPrivate, options.Deliver, options.Timeout));
        using var host = new WebhookHost { TimeoutSeconds = 60 };
        Assert.True(((WebhookSender)host.Services.GetService(typeof(WebhookSender))!).Lease > options.Timeout);
    }

    private static Task<IPAddress[]> Book(string host, CancellationToken ct) => host switch
    {
        "receiver.example" => Task.FromResult<IPAddress[]>([IPAddress.Parse("8.8.8.8")]),
        "inside.example" => Task.FromResult<IPAddress[]>([IPAddress.Parse("10.1.2.3")]),
        _ => Task.FromException<IPAddress[]>(new System.Net.Sockets.SocketException((int)System.Net.Sockets.SocketError.HostNotFound)),
    };
}
