using NodaTime;
using ReproLink.Api.Composition;

namespace ReproLink.Api.Webhooks.Sending;

/// <summary>How messages are sent.</summary>
/// <param name="AllowPrivate">Whether plain http and addresses of private networks and of this machine may be named.</param>
/// <param name="Deliver">Whether this process sends; another on the same file may.</param>
/// <param name="Timeout">How long a receiver may take to answer.</param>
internal sealed record WebhookOptions(bool AllowPrivate, bool Deliver, Duration Timeout)
{
    private const int UsualTimeoutSeconds = 20;
    private const int LongestTimeoutSeconds = 60;

    public static WebhookOptions From(IConfiguration configuration, ApiHostOptions options) => new(
        options.AllowPrivateWebhooks || options.Demo || configuration.GetValue("Webhooks:AllowPrivate", false),
        configuration.GetValue("Webhooks:Deliver", true),
        Duration.FromSeconds(Math.Clamp(configuration.GetValue("Webhooks:TimeoutSeconds", UsualTimeoutSeconds), 1, LongestTimeoutSeconds)));
}
