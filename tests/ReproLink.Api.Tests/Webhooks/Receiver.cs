using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using System.Threading.Channels;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace ReproLink.Api.Tests.Webhooks;

/// <summary>A message as it arrived.</summary>
internal sealed record Arrived(string Id, string Timestamp, string Signatures, string Body, IHeaderDictionary Headers)
{
    public JsonNode Json { get; } = JsonNode.Parse(Body)!;

    public JsonNode Data => Json["data"]!;

    /// <summary>Computes the signature anew, by the specification and nothing else.</summary>
    public string Expected(string secret) => "v1," + Convert.ToBase64String(HMACSHA256.HashData(
        Convert.FromBase64String(secret["whsec_".Length..]), Encoding.UTF8.GetBytes($"{Id}.{Timestamp}.{Body}")));
}

/// <summary>A receiver on this machine that answers as a test wants.</summary>
internal sealed class Receiver : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly Channel<Arrived> _arriving = Channel.CreateUnbounded<Arrived>();

    private Receiver(WebApplication app) => _app = app;

    /// <summary>How it answers; the usual answer is 204.</summary>
    public Func<HttpContext, Arrived, Task> Answer { get; set; } = (context, _) =>
    {
        context.Response.StatusCode = 204;
        return Task.CompletedTask;
    };

    public ConcurrentQueue<Arrived> All { get; } = new();

    public string Url => _app.Urls.First() + "/hook";

    public static async Task<Receiver> Start(string address = "http://127.0.0.1:0")
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        var app = builder.Build();
        app.Urls.Add(address);
        var receiver = new Receiver(app);
        app.MapPost("/hook", receiver.Take);
        await app.StartAsync();
        return receiver;
    }

    public void AnswerStatus(int status, string? header = null, string? value = null) => Answer = (context, _) =>
    {
        context.Response.StatusCode = status;
        if (header is not null)
        {
            context.Response.Headers[header] = value;
        }

        return Task.CompletedTask;
    };

    /// <summary>The next message, whenever it comes.</summary>
    public Task<Arrived> Next() => _arriving.Reader.ReadAsync().AsTask().WaitAsync(TimeSpan.FromMinutes(2));

    public async ValueTask DisposeAsync() => await _app.DisposeAsync();

    private async Task Take(HttpContext context)
    {
        using var reader = new StreamReader(context.Request.Body, new UTF8Encoding(false));
        var headers = context.Request.Headers;
        var arrived = new Arrived(headers["webhook-id"].ToString(), headers["webhook-timestamp"].ToString(), headers["webhook-signature"].ToString(),
            await reader.ReadToEndAsync(), new HeaderDictionary(headers.ToDictionary(h => h.Key, h => h.Value)));
        Assert.True(long.TryParse(arrived.Timestamp, NumberStyles.None, CultureInfo.InvariantCulture, out _));
        All.Enqueue(arrived);
        await Answer(context, arrived);
        _arriving.Writer.TryWrite(arrived);
    }
}
