using System.Net;
using NodaTime;
using ReproLink.Api.Clock;
using ReproLink.Api.Tests.Support;

namespace ReproLink.Api.Tests;

public sealed class ClockTests
{
    [Fact]
    public async Task Put_Forwards_MovesEveryHerdsToday_BackwardsIs409()
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        Assert.Equal("2026-10-05", (string?)(await herd.Get(""))["today"]);
        Assert.Equal(HttpStatusCode.OK, (await herd.Put("//testing/clock", """{"now":"2026-10-08T04:59:59Z"}""")).Status);
        // Still Wednesday in Chicago.
        Assert.Equal("2026-10-07", (string?)(await herd.Get(""))["today"]);
        var back = await herd.Put("//testing/clock", """{"now":"2026-10-08T04:59:58Z"}""");
        Assert.Equal(HttpStatusCode.Conflict, back.Status);
        Assert.Equal("/problems/clock-backwards", (string?)back["type"]);
        Assert.Equal(HttpStatusCode.OK, (await herd.Put("//testing/clock", """{"now":"2026-10-08T04:59:59Z"}""")).Status);
    }

    [Theory]
    [InlineData("""{"now":"2026-10-08"}""")]
    [InlineData("""{"now":"2026-10-08T12:00:00+02:00"}""")]
    [InlineData("""{"now":null}""")]
    [InlineData("""{"time":"2026-10-08T12:00:00Z"}""")]
    public async Task Put_NoInstant_IsRefused(string body)
    {
        await using var host = new ApiHostFixture();
        var herd = await HerdClient.Create(host);
        Assert.Equal(HttpStatusCode.BadRequest, (await herd.Put("//testing/clock", body)).Status);
    }

    [Theory]
    [InlineData("Production")]
    [InlineData("Development")]
    public async Task Put_OutsideTrials_ThereIsNoSuchAddress(string environment)
    {
        await using var host = new ApiHostFixture { Environment = environment };
        var herd = new HerdClient(host.CreateClient(), "");
        Assert.Equal(HttpStatusCode.NotFound, (await herd.Put("//testing/clock", """{"now":"2030-10-08T12:00:00Z"}""")).Status);
    }

    [Fact]
    public void Clock_NotSetYet_MayStartAnywhereOnlyWhileNothingIsRecorded()
    {
        var past = Instant.FromUtc(2020, 1, 1, 0, 0);
        Assert.False(new HerdClock(null, maySet: true).TryMove(past, mayStartAnywhere: false));
        var clock = new HerdClock(null, maySet: true);
        Assert.True(clock.TryMove(past, mayStartAnywhere: true));
        Assert.Equal(past, clock.GetCurrentInstant());
        Assert.False(clock.TryMove(past - Duration.FromSeconds(1), mayStartAnywhere: true));
    }

    [Fact]
    public void Clock_AskedForOutsideTrials_IsRefused() =>
        Assert.Throws<InvalidOperationException>(() => new HerdClock(Instant.FromUtc(2020, 1, 1, 0, 0), maySet: false));
}
