using System.Net;
using System.Text;
using ReproLink.Api.Limits;
using ReproLink.Api.Problems;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

/// <summary>Whatever is wrong with a request, the refusal has one shape, in every environment.</summary>
public sealed class ProblemShapeTests
{
    [Theory]
    [InlineData("Testing")]
    [InlineData("Development")]
    [InlineData("Production")]
    public async Task Refusals_HaveOneShape(string environment)
    {
        await using var host = new ApiHostFixture { Environment = environment };
        var (secret, _) = await host.Store.Keys.Create("manager", Records.KeyRole.Manager, null, NodaTime.Instant.FromUtc(2026, 10, 1, 0, 0));
        var herd = new HerdClient(host.CreateClient(), "/locations/farm/x").With(host, secret);
        await herd.Put("", """{"name":"X","timeZone":"Europe/Berlin"}""");
        var huge = new string(' ', new ServiceLimits().BodyBytes + 1);
        var deep = new string('[', 100) + new string(']', 100);

        await Refused(herd.Get("//nowhere"), 404, "not-found");
        await Refused(herd.Get("/nowhere"), 404, "not-found");
        await Refused(herd.Send(HttpMethod.Delete, "/facts", null, null), 405, "method-not-allowed");
        await Refused(herd.Send(HttpMethod.Post, "//version", "{}", "application/json"), 405, "method-not-allowed");
        await Refused(herd.Post("/facts", "<a/>", "application/xml"), 415, "media-type-not-supported");
        await Refused(herd.Post("/facts", "[]", "application/json; charset=utf-16"), 415, "media-type-not-supported");
        await Refused(herd.Post("/test-results", "<a/>", "application/xml"), 415, "media-type-not-supported");
        await Refused(herd.Send(HttpMethod.Post, "/facts", "[]", null), 415, "media-type-not-supported");
        await Refused(herd.Post("/facts", huge), 413, "body-too-large");
        await Refused(herd.Put("/programme", huge), 413, "body-too-large");
        await Refused(herd.Post("/facts", ""), 400, "bad-json");
        await Refused(herd.Post("/facts", "[{]"), 400, "bad-json");
        await Refused(herd.Post("/facts", "[1,]"), 400, "bad-json");
        await Refused(herd.Post("/facts", deep), 400, "bad-json");
        await Refused(herd.Post("/facts", """[{"\udc00":1}]"""), 400, "bad-json");
        await Refused(herd.Post("/facts", "7"), 400, "bad-batch");
        await Refused(herd.Post("/facts", new string(' ', 200_000), "text/csv"), 400, "bad-csv");
        await Refused(herd.Post("/test-results/preview", "animal\n" + new string('1', 200_000), "text/csv"), 400, "bad-csv");
        await Refused(herd.Put("/programme", "[]"), 400, "invalid-request");
        await Refused(herd.Put("/programme", "null"), 400, "invalid-request");
        await Refused(herd.Get("/programme?on=2026-02-30"), 400, "invalid-request");
        await Refused(herd.Get("/programme?on=9999-12-31"), 400, "invalid-request");
        await Refused(herd.Get("/bleed-list?from=tomorrow"), 400, "invalid-request");
        await Refused(herd.Get("/bleed-list?from=2026-10-05&to=2026-10-04"), 400, "invalid-request");
        await Refused(herd.Get("/bleed-list?form=2026-10-05"), 400, "invalid-request");
        await Refused(herd.Get("/bleed-list", "application/pdf"), 406, "not-acceptable");
        await Refused(herd.Get("/animals/nobody/test-window"), 404, "animal-not-found");
        await Refused(herd.Get("/animals/a%2Fb/timeline"), 404, "animal-not-found");
        await Refused(herd.Post("/facts", "[]", idempotencyKey: new string('k', 101)), 400, "invalid-request");
    }

    [Fact]
    public async Task Body_NotUtf8_IsRefused()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        using var client = host.CreateClient();
        using var content = new ByteArrayContent([(byte)'[', (byte)'"', 0xff, (byte)'"', (byte)']']);
        content.Headers.TryAddWithoutValidation("Content-Type", "application/json");
        Assert.Equal(HttpStatusCode.BadRequest, (await client.PostAsync(herd.Address + "/facts", content)).StatusCode);
    }

    [Fact]
    public async Task Body_WithByteOrderMark_IsRead()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        Assert.Equal(HttpStatusCode.OK, (await herd.Post("/facts", "\ufeff[]")).Status);
        Assert.Equal(HttpStatusCode.OK, (await herd.Post("/facts", "\ufeffsourceId,kind,animal,date\n", "text/csv")).Status);
    }

    [Fact]
    public async Task HugeValue_IsNotSentBackWhole()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        var answer = await herd.Post("/facts", $$"""[{"sourceId":"1","kind":"{{new string('x', 1_000_000)}}","animal":"1"}]""");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.InRange(Encoding.UTF8.GetByteCount(answer.Text), 1, 5_000);
    }

    [Fact]
    public async Task EveryKindOfProblem_HasItsPage()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        foreach (var type in ProblemTypes.All)
        {
            Assert.Equal(HttpStatusCode.OK, (await herd.Get("/" + type.Uri)).Status);
        }

        Assert.Equal(ProblemTypes.All.Count, ProblemTypes.All.Select(t => t.Slug).Distinct().Count());
    }

    private static async Task Refused(Task<Answer> asked, int status, string slug)
    {
        var answer = await asked;
        Assert.Equal((status, "/problems/" + slug), ((int)answer.Status, (string?)answer.Json?["type"]));
        Assert.Equal("application/problem+json", answer.MediaType);
        Assert.Equal(status, (int)answer["status"]);
        Assert.False(string.IsNullOrEmpty((string?)answer["title"]));
        Assert.False(string.IsNullOrEmpty((string?)answer["detail"]));
    }
}
