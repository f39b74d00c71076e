using System.Net;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

public sealed class IdempotencyTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    private const string Fact = """[{"sourceId":"1","kind":"oestrus","animal":"1","date":"2026-10-01"}]""";

    [Fact]
    public async Task Post_SameKeyAndBody_IsAnsweredTheSame()
    {
        var herd = await HerdClient.Create(host);
        var first = await herd.Post("/facts", Fact, idempotencyKey: "k");
        var again = await herd.Post("/facts", Fact, idempotencyKey: "k");
        Assert.Equal("accepted", (string?)again.Results[0]!["status"]);
        Assert.Equal(first.Text, again.Text);
        Assert.Equal("duplicate", (string?)(await herd.Post("/facts", Fact)).Results[0]!["status"]);
    }

    [Fact]
    public async Task Post_SameKeyOtherBody_Is409AndStoresNothing()
    {
        var herd = await HerdClient.Create(host);
        await herd.Post("/facts", Fact, idempotencyKey: "k");
        var other = await herd.Post("/facts", Fact.Replace("oestrus", "calving", StringComparison.Ordinal), idempotencyKey: "k");
        Assert.Equal(HttpStatusCode.Conflict, other.Status);
        Assert.Equal("/problems/idempotency-key-reused", (string?)other["type"]);
        Assert.Equal("oestrus", (string?)Assert.Single((await herd.Get("/facts"))["facts"].AsArray())!["kind"]);
    }

    [Fact]
    public async Task TestResults_WithAKey_AnswerWhatTheyDecide()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept("""[{"sourceId":"s","kind":"insemination","animal":"1","date":"2026-08-01"}]""");
        var answer = await herd.Post("/test-results", """[{"sourceId":"r","animal":"1","sampled":"2026-10-05","method":"blood","outcome":"pregnant"}]""", idempotencyKey: "k");
        Assert.Equal("pregnant", (string?)answer.Results[0]!["decides"]);
    }

    [Fact]
    public async Task Programme_SameKey_SavesOneVersion()
    {
        var herd = await HerdClient.Create(host);
        for (var i = 0; i < 2; i++)
        {
            var answer = await herd.Send(HttpMethod.Put, "/programme", "{}", "application/json", idempotencyKey: "k");
            Assert.Equal(1, (int)answer["version"]);
        }

        Assert.Single((await herd.Get("/programme/versions"))["versions"].AsArray());
    }

    [Fact]
    public async Task Withdraw_SameKey_IsAnsweredTheSame()
    {
        var herd = await HerdClient.Create(host);
        var id = (await herd.Accept(Fact))[0];
        for (var i = 0; i < 2; i++)
        {
            Assert.Equal(HttpStatusCode.OK, (await herd.Post($"/facts/{id}/withdraw", """{"reason":"wrong cow"}""", idempotencyKey: "k")).Status);
        }

        Assert.Equal(HttpStatusCode.Conflict, (await herd.Post($"/facts/{id}/withdraw", """{"reason":"wrong cow"}""")).Status);
    }

    [Fact]
    public async Task Herd_SameKey_IsAnsweredTheSame()
    {
        var herd = new HerdClient(host.CreateClient(), "/locations/farm/once");
        const string Body = """{"name":"Once","timeZone":"Europe/Berlin"}""";
        for (var i = 0; i < 2; i++)
        {
            Assert.Equal(HttpStatusCode.Created, (await herd.Send(HttpMethod.Put, "", Body, "application/json", idempotencyKey: "k")).Status);
        }
    }
}
