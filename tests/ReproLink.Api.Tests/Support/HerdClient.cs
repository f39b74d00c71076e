using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Support;

/// <summary>An answer: its status, its form and its JSON.</summary>
public sealed record Answer(HttpStatusCode Status, string? MediaType, JsonNode? Json, string Text, HttpResponseHeaders Headers)
{
    public JsonNode this[string name] => Json![name] ?? throw new InvalidOperationException($"No '{name}' in {Text}");

    /// <summary>The answers to the items of a batch.</summary>
    public JsonArray Results => this["results"].AsArray();
}

/// <summary>A client of one location of a service.</summary>
public sealed class HerdClient(HttpClient client, string address)
{
    private static int _made;

    public string Address => address;

    /// <summary>A new location in the service, so that tests of one class do not meet.</summary>
    public static async Task<HerdClient> Create(ApiHostFixture host, string timeZone = "America/Chicago")
    {
        var herd = new HerdClient(host.CreateClient(), $"/locations/farm/h{Interlocked.Increment(ref _made)}");
        var answer = await herd.Put("", $$"""{"name":"North Ridge","timeZone":"{{timeZone}}"}""");
        Assert.Equal(HttpStatusCode.Created, answer.Status);
        return herd;
    }

    /// <summary>The same location asked with a key.</summary>
    public HerdClient With(ApiHostFixture host, string secret)
    {
        var keyed = host.CreateClient();
        keyed.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", secret);
        return new HerdClient(keyed, address);
    }

    public Task<Answer> Get(string path, string? accept = null) => Send(HttpMethod.Get, path, null, null, accept);

    public Task<Answer> Put(string path, string json) => Send(HttpMethod.Put, path, json, "application/json");

    public Task<Answer> Post(string path, string body, string mediaType = "application/json", string? idempotencyKey = null) =>
        Send(HttpMethod.Post, path, body, mediaType, null, idempotencyKey);

    /// <summary>Posts facts that must all be accepted.</summary>
    public async Task<IReadOnlyList<string>> Accept(string facts)
    {
        var answer = await Post("/facts", facts);
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.All(answer.Results, r => Assert.Equal("accepted", (string?)r!["status"]));
        return [.. answer.Results.Select(r => (string)r!["factId"]!)];
    }

    public async Task<Answer> Send(
        HttpMethod method, string path, string? body, string? mediaType, string? accept = null, string? idempotencyKey = null)
    {
        using var request = new HttpRequestMessage(method, path.StartsWith("//", StringComparison.Ordinal) ? path[1..] : address + path);
        if (body is not null)
        {
            request.Content = new ByteArrayContent(Encoding.UTF8.GetBytes(body));
            request.Content.Headers.TryAddWithoutValidation("Content-Type", mediaType);
        }

        if (accept is not null)
        {
            request.Headers.TryAddWithoutValidation("Accept", accept);
        }

        if (idempotencyKey is not null)
        {
            request.Headers.Add("Idempotency-Key", idempotencyKey);
        }

        return await Read(await client.SendAsync(request));
    }

    private static async Task<Answer> Read(HttpResponseMessage response)
    {
        using (response)
        {
            var text = await response.Content.ReadAsStringAsync();
            var mediaType = response.Content.Headers.ContentType?.MediaType;
            var json = mediaType?.EndsWith("json", StringComparison.Ordinal) == true ? JsonNode.Parse(text) : null;
            return new Answer(response.StatusCode, mediaType, json, text, response.Headers);
        }
    }
}
