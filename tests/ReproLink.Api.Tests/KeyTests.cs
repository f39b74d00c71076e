using System.Net;
using NodaTime;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests;

public sealed class KeyTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private static int _made;

    private const string Fact = """[{"sourceId":"1","kind":"oestrus","animal":"1","date":"2026-10-01"}]""";
    private const string Result = """[{"sourceId":"r","animal":"1","sampled":"2026-10-01","method":"blood","outcome":"open"}]""";
    private const string Approval = """{"version":1}""";

    private async Task<string> Key(KeyRole role, params LocationKey[] locations) => (await host.Store.Keys.Create(
        $"key-{Interlocked.Increment(ref _made)}", role, locations.Length == 0 ? null : locations, Instant.FromUtc(2026, 10, 1, 0, 0))).Secret;

    [Theory]
    [InlineData(KeyRole.Reader, 200, 403, 403, 403, 403)]
    [InlineData(KeyRole.Exchange, 200, 200, 200, 403, 403)]
    [InlineData(KeyRole.Manager, 200, 200, 200, 200, 403)]
    [InlineData(KeyRole.Veterinarian, 200, 200, 200, 403, 201)]
    public async Task Roles_MayDoWhatTheyMay(KeyRole role, int read, int facts, int results, int programme, int approval)
    {
        var herd = await HerdClient.Create(host);
        await herd.Put("/programme", "{}");
        var keyed = herd.With(host, await Key(role));
        Assert.Equal(read, (int)(await keyed.Get("/programme")).Status);
        Assert.Equal(facts, (int)(await keyed.Post("/facts", Fact)).Status);
        Assert.Equal(results, (int)(await keyed.Post("/test-results", Result)).Status);
        Assert.Equal(programme, (int)(await keyed.Put("/programme", "{}")).Status);
        Assert.Equal(approval, (int)(await keyed.Post("/programme/approvals", Approval)).Status);
    }

    [Fact]
    public async Task Reader_Writing_IsToldWhichRolesMay()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.With(host, await Key(KeyRole.Reader)).Post("/facts", "not even JSON");
        Assert.Equal(HttpStatusCode.Forbidden, answer.Status);
        Assert.Equal("application/problem+json", answer.MediaType);
        Assert.Contains("manager, exchange, veterinarian", (string?)answer["detail"], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(KeyRole.Exchange, "rejected")]
    [InlineData(KeyRole.Manager, "accepted")]
    [InlineData(KeyRole.Veterinarian, "accepted")]
    public async Task Confirm_NeedsManagerOrVeterinarian(KeyRole role, string status)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.With(host, await Key(role)).Post("/facts", """[{"sourceId":"1","kind":"confirm","animal":"1","confirms":{"source":"a","sourceId":"b"}}]""");
        Assert.Equal(status, (string?)answer.Results[0]!["status"]);
    }

    [Theory]
    [InlineData("Bearer wrong")]
    [InlineData("Bearer ")]
    [InlineData("Basic dTpw")]
    [InlineData("nonsense")]
    public async Task WrongKey_Is401Everywhere(string header)
    {
        var herd = await HerdClient.Create(host);
        using var client = host.CreateClient();
        client.DefaultRequestHeaders.TryAddWithoutValidation("Authorization", header);
        foreach (var path in new[] { herd.Address, "/version", "/health", "/nowhere", "/openapi/v1.json", "/locations/farm/nowhere" })
        {
            var answer = await client.GetAsync(path);
            Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
            Assert.Equal("Bearer", answer.Headers.WwwAuthenticate.ToString());
            Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        }
    }

    [Fact]
    public async Task RevokedKey_Is401()
    {
        var herd = await HerdClient.Create(host);
        var (secret, key) = await host.Store.Keys.Create("short-lived", KeyRole.Reader, null, Instant.FromUtc(2026, 10, 1, 0, 0));
        var keyed = herd.With(host, secret);
        Assert.Equal(HttpStatusCode.OK, (await keyed.Get("")).Status);
        await host.Store.Keys.Revoke(key.Name, Instant.FromUtc(2026, 10, 2, 0, 0));
        Assert.Equal(HttpStatusCode.Unauthorized, (await keyed.Get("")).Status);
    }

    [Fact]
    public async Task ForeignLocation_LooksLikeAMissingOne()
    {
        var foreign = await HerdClient.Create(host);
        foreach (var role in Enum.GetValues<KeyRole>())
        {
            var secret = await Key(role, new LocationKey("farm", "mine"));
            var missing = new HerdClient(host.CreateClient(), "/locations/farm/missing").With(host, secret);
            var asked = foreign.With(host, secret);
            foreach (var path in new[] { "", "/facts", "/programme", "/bleed-list", "/animals/1/test-window" })
            {
                Assert.Equal((await missing.Get(path)).Text, (await asked.Get(path)).Text);
                Assert.Equal(HttpStatusCode.NotFound, (await asked.Get(path)).Status);
            }

            Assert.Equal((await missing.Post("/facts", Fact)).Text, (await asked.Post("/facts", Fact)).Text);
            Assert.Equal(HttpStatusCode.NotFound, (await asked.Put("", """{"name":"X","timeZone":"Europe/Berlin"}""")).Status);
        }
    }

    [Fact]
    public async Task ManagerOfOneLocation_MayCreateIt()
    {
        var secret = await Key(KeyRole.Manager, new LocationKey("farm", "own"));
        var own = new HerdClient(host.CreateClient(), "/locations/farm/own").With(host, secret);
        Assert.Equal(HttpStatusCode.NotFound, (await own.Get("")).Status);
        Assert.Equal(HttpStatusCode.Created, (await own.Put("", """{"name":"Own","timeZone":"Europe/Berlin"}""")).Status);
    }

    [Fact]
    public async Task Source_IsTheKeysName_UnlessSent()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept("""[{"sourceId":"1","kind":"oestrus","animal":"1","date":"2026-10-01"},{"sourceId":"1","source":"herd-app","kind":"oestrus","animal":"1","date":"2026-10-02"}]""");
        Assert.Equal(["local", "herd-app"], (await herd.Get("/facts"))["facts"].AsArray().Select(f => (string?)f!["source"]));
    }

    [Fact]
    public async Task NoKey_InProduction_Is401_AndTheServiceItselfStaysReadable()
    {
        await using var production = new ApiHostFixture { Environment = "Production" };
        using var client = production.CreateClient();
        Assert.Equal(HttpStatusCode.Unauthorized, (await client.GetAsync("/locations/farm/x")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/health")).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await client.GetAsync("/version")).StatusCode);
    }
}
