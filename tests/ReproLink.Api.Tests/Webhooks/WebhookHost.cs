using System.Net;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Tests.Support;
using ReproLink.Api.Webhooks.Sending;

namespace ReproLink.Api.Tests.Webhooks;

/// <summary>A service whose messages are sent when the test says so, and whose clock the test moves.</summary>
public sealed class WebhookHost : ApiHostFixture
{
    public bool AllowPrivate { get; init; } = true;

    public bool SendByItself { get; init; }

    /// <summary>Where the clock starts, if not where it usually does.</summary>
    public string? Clock { get; init; }

    internal HostLookup? Lookup { get; init; }

    public string? OnFile { get; init; }

    public int TimeoutSeconds { get; init; } = 20;

    /// <summary>Sends what is due until nothing is.</summary>
    public async Task SendDue()
    {
        var sender = Services.GetRequiredService<WebhookSender>();
        while (sender.Begin(CancellationToken.None) > 0)
        {
            await sender.Ended();
        }
    }

    public async Task Move(HerdClient herd, Duration by)
    {
        var now = Services.GetRequiredService<IClock>().GetCurrentInstant() + by;
        Assert.Equal(HttpStatusCode.OK, (await herd.Put("//testing/clock", $$"""{"now":"{{InstantPattern.ExtendedIso.Format(now)}}"}""")).Status);
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        if (Clock is not null)
        {
            builder.UseSetting("Clock", Clock);
        }

        if (OnFile is not null)
        {
            builder.UseSetting("Database", OnFile);
        }

        builder.ConfigureTestServices(services =>
        {
            services.AddSingleton(new WebhookOptions(AllowPrivate, SendByItself, Duration.FromSeconds(TimeoutSeconds)));
            if (Lookup is { } lookup)
            {
                services.AddSingleton(lookup);
            }
        });
    }
}

/// <summary>Webhooks over HTTP.</summary>
internal static class WebhookCalls
{
    public const string Change = """[{"sourceId":"o-1","kind":"oestrus","animal":"1042","date":"2026-10-01"}]""";

    /// <summary>Registers a receiver.</summary>
    public static async Task<(int Webhook, string Secret)> Register(this HerdClient herd, string url, string more = "")
    {
        var answer = await herd.Post("/webhooks", $$"""{"url":"{{url}}"{{more}}}""");
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        return ((int)answer["webhook"], (string)answer["secret"]!);
    }

    public static Task<Answer> Patch(this HerdClient herd, string path, string json) => herd.Send(HttpMethod.Patch, path, json, "application/json");

    public static Task<Answer> Delete(this HerdClient herd, string path) => herd.Send(HttpMethod.Delete, path, null, null);

    /// <summary>Records a fact that was not there.</summary>
    public static Task<IReadOnlyList<string>> Happen(this HerdClient herd, string id) =>
        herd.Accept($$"""[{"sourceId":"{{id}}","kind":"oestrus","animal":"1042","date":"2026-10-01"}]""");
}
