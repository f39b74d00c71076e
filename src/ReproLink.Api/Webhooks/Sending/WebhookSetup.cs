using System.Net;
using ReproLink.Api.Composition;

namespace ReproLink.Api.Webhooks.Sending;

internal static class WebhookSetup
{
    public static void AddWebhooks(this IServiceCollection services)
    {
        services.AddSingleton(s => WebhookOptions.From(s.GetRequiredService<IConfiguration>(), s.GetRequiredService<ApiHostOptions>()));
        services.AddSingleton<HostLookup>(Dns.GetHostAddressesAsync);
        services.AddSingleton<Destinations>();
        services.AddSingleton<WebhookClient>();
        services.AddSingleton<WebhookSender>();
        services.AddHostedService<WebhookService>();
    }
}
