using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests.Webhooks;

/// <summary>A service, a herd in it, and a receiver.</summary>
public abstract class WebhookScene : IAsyncLifetime
{
    protected WebhookHost Host { get; private set; } = null!;

    protected HerdClient Herd { get; private set; } = null!;

    private protected Receiver Receiver { get; private set; } = null!;

    public async Task InitializeAsync()
    {
        Host = MakeHost();
        Herd = await HerdClient.Create(Host);
        Receiver = await Receiver.Start();
    }

    public async Task DisposeAsync()
    {
        await Host.DisposeAsync();
        await Receiver.DisposeAsync();
    }

    protected virtual WebhookHost MakeHost() => new();
}
