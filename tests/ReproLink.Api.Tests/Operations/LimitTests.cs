using System.Net;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Operations;

/// <summary>One caller who sends too much does not take the service away from the others.</summary>
public sealed class LimitTests
{
    private static readonly NodaTime.Instant Made = NodaTime.Instant.FromUtc(2026, 10, 1, 0, 0);

    [Fact]
    public async Task OneKeySendsTooMuch_IsTurnedAway_AndNobodyElse()
    {
        await using var host = new ApiHostFixture { Settings = With("Limits:RequestsPerMinute", "1") };
        var herd = new HerdClient(host.CreateClient(), "/locations/farm/x");
        var eager = herd.With(host, (await host.Store.Keys.Create("eager", KeyRole.Manager, null, Made)).Secret);
        var calm = herd.With(host, (await host.Store.Keys.Create("calm", KeyRole.Manager, null, Made)).Secret);

        Assert.Equal(HttpStatusCode.Created, (await eager.Put("", """{"name":"X","timeZone":"Europe/Berlin"}""")).Status);
        var refused = await UntilRefused(() => eager.Get(""));
        Assert.Equal("/problems/too-many-requests", (string?)refused.Json?["type"]);
        Assert.Equal("application/problem+json", refused.MediaType);
        Assert.InRange(refused.Headers.RetryAfter!.Delta!.Value.TotalSeconds, 1, 60);

        Assert.Equal(HttpStatusCode.OK, (await calm.Get("")).Status);
        Assert.Equal(HttpStatusCode.OK, (await herd.Get("//version")).Status);
    }

    [Fact]
    public async Task StandardAddress_IsRefusedInTheStandardsForm()
    {
        await using var host = new ApiHostFixture { Settings = With("Limits:RequestsPerMinute", "1") };
        var herd = new HerdClient(host.CreateClient(), "/locations/farm/x");
        var refused = await UntilRefused(() => herd.Get("/heats"));
        Exchange.AdeSchemas.Errors(refused.Json, 429);
    }

    [Fact]
    public async Task Health_IsNeverLimited()
    {
        await using var host = new ApiHostFixture { Settings = With("Limits:RequestsPerMinute", "1") };
        var herd = new HerdClient(host.CreateClient(), "/locations/farm/x");
        for (var i = 0; i < 20; i++)
        {
            Assert.Equal("live", (string?)(await herd.Get("//health/live")).Json?["status"]);
            Assert.Equal("ready", (string?)(await herd.Get("//health/ready")).Json?["status"]);
        }
    }

    [Fact]
    public async Task Usual_IsFarAboveWhatAFarmSends()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        for (var i = 0; i < 500; i++)
        {
            Assert.Equal(HttpStatusCode.OK, (await herd.Get("")).Status);
        }
    }

    [Fact]
    public async Task WrongKeys_AreTurnedAway_ARightOneAmongThemToo_KeysInUseAreNot()
    {
        await using var host = new ApiHostFixture { Settings = With("Limits:WrongKeysPerMinute", "2") };
        var herd = new HerdClient(host.CreateClient(), "/locations/farm/x");
        var inUse = herd.With(host, (await host.Store.Keys.Create("in-use", KeyRole.Reader, null, Made)).Secret);
        Assert.Equal(HttpStatusCode.OK, (await inUse.Get("//version")).Status);
        Assert.Equal(HttpStatusCode.Unauthorized, (await herd.With(host, "wrong").Get("//version")).Status);

        var guessed = false;
        for (var i = 0; i < 10 && !guessed; i++)
        {
            // The minute may end between the two: then it is tried again with a key not used before.
            await UntilRefused(() => herd.With(host, $"wrong-{i}").Get("//version"));
            var fresh = herd.With(host, (await host.Store.Keys.Create($"fresh-{i}", KeyRole.Manager, null, Made)).Secret);
            guessed = (await fresh.Get("//version")).Status == HttpStatusCode.TooManyRequests;
        }

        Assert.True(guessed);
        Assert.Equal(HttpStatusCode.OK, (await inUse.Get("//version")).Status);
        Assert.Equal(HttpStatusCode.OK, (await herd.Get("//version")).Status);
    }

    [Fact]
    public async Task WrongKeysAtSignIn_AreTurnedAwayInWords()
    {
        await using var host = new ApiHostFixture { Settings = With("Limits:WrongKeysPerMinute", "1") };
        var herd = new HerdClient(host.CreateClient(), "");
        await UntilRefused(() => herd.With(host, "wrong").Get("/version"));
        var token = (await herd.Get("/sign-in")).Text.Split("__RequestVerificationToken\" value=\"")[1].Split('"')[0];
        var refused = await UntilRefused(() => herd.Post("/sign-in", $"key=wrong&__RequestVerificationToken={Uri.EscapeDataString(token)}", "application/x-www-form-urlencoded"));
        Assert.Contains("Too many wrong keys came from here.", refused.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Body_LargerThanSet_IsRefused_AndNothingIsStored()
    {
        await using var host = new ApiHostFixture { Settings = With("Limits:BodyBytes", "1000") };
        var herd = await HerdClient.Create(host);
        const string Fact = """[{"sourceId":"1","kind":"oestrus","animal":"1","date":"2026-10-01"}]""";
        var refused = await herd.Post("/facts", Fact + new string(' ', 1000));
        Assert.Equal((413, "/problems/body-too-large"), ((int)refused.Status, (string?)refused.Json?["type"]));
        Assert.Contains("1000 bytes", (string?)refused.Json?["detail"], StringComparison.Ordinal);
        Assert.Empty((await herd.Get("/facts"))["facts"].AsArray());
        Assert.Equal(HttpStatusCode.OK, (await herd.Post("/facts", Fact + new string(' ', 1000 - Fact.Length))).Status);
    }

    private static Dictionary<string, string> With(string name, string value) => new() { [name] = value };

    // The allowance grows while we ask; whoever asks without pause runs out of it.
    private static async Task<Answer> UntilRefused(Func<Task<Answer>> ask)
    {
        for (var i = 0; i < 1000; i++)
        {
            if (await ask() is { Status: HttpStatusCode.TooManyRequests } refused)
            {
                return refused;
            }
        }

        throw new InvalidOperationException("It was never refused.");
    }
}
