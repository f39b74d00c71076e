using System.Net.Http.Headers;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using ReproLink.Api.Composition;
using ReproLink.Benchmarks.Herds;
using ReproLink.Records;

namespace ReproLink.Benchmarks.Hosting;

/// <summary>The service as it runs, on real sockets in this process, asked with a manager's key.</summary>
internal sealed class RunningHost : IAsyncDisposable
{
    private readonly WebApplication _app;

    private RunningHost(WebApplication app, HttpClient client)
    {
        _app = app;
        Client = client;
    }

    public const int Connections = 16;

    public static string HerdPath => $"/locations/{HerdFile.Location.Scheme}/{HerdFile.Location.Id}";

    /// <summary>A client with the key and at most 16 connections.</summary>
    public HttpClient Client { get; }

    public Store Store => _app.Services.GetRequiredService<Store>();

    public static async Task<RunningHost> Start(
        string database, Action<WebApplication>? more = null, bool allowPrivateWebhooks = false, bool watched = true, bool logRequests = false)
    {
        // The limit is at work and never reached: a refusal would be quicker than an answer.
        var app = ApiHost.Build(
            ["--urls", "http://127.0.0.1:0", "--environment", "Production", "--Limits:RequestsPerMinute", "1000000000", "--Logging:LogLevel:Default", "None",
                "--Logging:LogLevel:ReproLink.Requests", logRequests ? "Debug" : "None"],
            new ApiHostOptions { Database = database, AllowPrivateWebhooks = allowPrivateWebhooks, Watched = watched });
        more?.Invoke(app);
        await app.StartAsync();
        var address = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
        var name = $"bench-{Guid.NewGuid():N}";
        var (secret, _) = await app.Services.GetRequiredService<Store>().Keys.Create(name, KeyRole.Manager, null, SystemClock.Instance.GetCurrentInstant());
        var client = ClientOf(new Uri(address));
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", secret);
        return new RunningHost(app, client);
    }

    /// <summary>A client without a key.</summary>
    public HttpClient WithoutKey() => ClientOf(Client.BaseAddress!);

    public Task<byte[]> Get(string path) => Get(Client, path);

    /// <summary>Reads one answer whole, as a caller would.</summary>
    public static async Task<byte[]> Get(HttpClient client, string path)
    {
        using var response = await client.GetAsync(path);
        response.EnsureSuccessStatusCode();
        return await response.Content.ReadAsByteArrayAsync();
    }

    public Task Post(string path, byte[] body, string mediaType = "application/json") => Send(HttpMethod.Post, path, body, mediaType);

    public Task Put(string path, byte[] json) => Send(HttpMethod.Put, path, json);

    public Task Patch(string path, byte[] json) => Send(HttpMethod.Patch, path, json);

    private async Task Send(HttpMethod method, string path, byte[] body, string mediaType = "application/json")
    {
        using var request = new HttpRequestMessage(method, path) { Content = new ByteArrayContent(body) };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue(mediaType);
        using var response = await Client.SendAsync(request);
        response.EnsureSuccessStatusCode();
        await response.Content.ReadAsByteArrayAsync();
    }

    private static HttpClient ClientOf(Uri address) =>
        new(new SocketsHttpHandler { MaxConnectionsPerServer = Connections }) { BaseAddress = address, Timeout = TimeSpan.FromMinutes(5) };

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
    }
}
