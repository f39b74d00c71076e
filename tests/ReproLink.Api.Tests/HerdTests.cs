using System.Net;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

public sealed class HerdTests(ApiHostFixture host) : IClassFixture<ApiHostFixture>
{
    [Fact]
    public async Task Put_Again_ChangesAndAnswers200()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Put("", """{"name":"South Ridge","timeZone":"Europe/Berlin"}""");
        Assert.Equal(HttpStatusCode.OK, answer.Status);
        Assert.Equal("South Ridge", (string?)(await herd.Get(""))["name"]);
        Assert.Equal("Europe/Berlin", (string?)(await herd.Get(""))["timeZone"]);
    }

    [Fact]
    public async Task Get_CountsWhatIsOnRecord_AndSaysThatDefaultsGovern()
    {
        var herd = await HerdClient.Create(host);
        await herd.Accept("""[{"sourceId":"1","kind":"calving","animal":"1","date":"2026-07-01"},{"sourceId":"2","kind":"oestrus","animal":"1","date":"2026-08-01"},{"sourceId":"3","kind":"oestrus","animal":"2","date":"2026-08-01"}]""");
        var answer = await herd.Get("");
        Assert.Equal("""{"animals":2,"facts":3}""", answer["counts"].ToJsonString());
        Assert.Equal("""{"version":0,"defaults":true}""", answer["programme"].ToJsonString());
        await herd.Put("/programme", "{}");
        Assert.Null((await herd.Get("")).Json!["programme"]);
    }

    [Theory]
    [InlineData("Chicago")]
    [InlineData("UTC+05")]
    [InlineData("")]
    public async Task Put_TimeZoneNotInTheDatabase_IsRefused(string zone)
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Put("", $$"""{"name":"X","timeZone":"{{zone}}"}""");
        Assert.Equal(HttpStatusCode.BadRequest, answer.Status);
        Assert.Equal("/timeZone", (string?)answer["errors"][0]!["field"]);
        Assert.Equal(zone, (string?)answer["errors"][0]!["value"]);
        Assert.Equal("North Ridge", (string?)(await herd.Get(""))["name"]);
    }

    [Fact]
    public async Task Put_EverythingWrong_IsSaidAtOnce()
    {
        var herd = await HerdClient.Create(host);
        var answer = await herd.Put("", """{"name":null,"timezone":"America/Chicago"}""");
        Assert.Equal(["/name", "/timeZone", "/timezone"], answer["errors"].AsArray().Select(e => (string?)e!["field"]));
    }

    [Fact]
    public async Task Put_TheLocationsOfTwoSchemes_AreTwoHerds()
    {
        var herd = await HerdClient.Create(host);
        var other = await herd.Send(HttpMethod.Put, "/" + herd.Address.Replace("farm", "barn", StringComparison.Ordinal), """{"name":"Other","timeZone":"Europe/Berlin"}""", "application/json");
        Assert.Equal(HttpStatusCode.Created, other.Status);
        Assert.Equal("North Ridge", (string?)(await herd.Get(""))["name"]);
    }
}
