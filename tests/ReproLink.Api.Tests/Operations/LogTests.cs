using System.Net;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using ReproLink.Api.Problems;
using ReproLink.Api.Tests.Support;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Operations;

/// <summary>A log can be handed to anyone: no animal, herd, key, address, query or body stands in it.</summary>
public sealed class LogTests
{
    [Fact]
    public async Task WhateverHappens_NothingOfARequestIsLogged_ButItsRoute()
    {
        using var log = new CapturedLog();
        await using var host = new LoggingHost(log);
        var (secret, _) = await host.Store.Keys.Create("Zebedee", KeyRole.Manager, null, NodaTime.Instant.FromUtc(2026, 10, 1, 0, 0));
        var herd = new HerdClient(host.CreateClient(), "/locations/farm/quillfarm").With(host, secret);
        Assert.Equal(HttpStatusCode.Created, (await herd.Put("", """{"name":"Marrowdale","timeZone":"America/Chicago"}""")).Status);
        await herd.Post("/facts", """[{"sourceId":"xylo-1","kind":"insemination","animal":"hexacow","date":"2026-09-10","sire":"Brontobull"},{"sourceId":"xylo-2","animal":"hexacow","kind":"grimble"}]""");
        await herd.Post("/facts", "[{\"grimble\":");
        await herd.Post("/facts", "<grimble/>", "application/grimble");
        await herd.Post("/inseminations", """{"resourceType":"grimble","animal":{"scheme":"s","id":"hexacow"}}""");
        await herd.Get("/animals/hexacow/test-window?on=2026-10-05&knownAt=grimble");
        await herd.Get("/animals/hexacow/timeline");
        await herd.Get("/animals/hexaghost/timeline");
        await herd.Get("/bleed-list?pen=grimblepen", "text/csv");
        await herd.With(host, "wrong-snark").Get("/facts");
        var link = (string)(await herd.Post("/calendar-links", """{"name":"grimble"}"""))["address"]!;
        await herd.Get("//" + new Uri(link).PathAndQuery.TrimStart('/'));
        await herd.Get("//herds/farm/quillfarm/animals/hexacow");
        await herd.Post("//sign-in", $"key={secret}", "application/x-www-form-urlencoded");
        await host.Store.DisposeAsync();
        Assert.Equal(HttpStatusCode.InternalServerError, (await herd.Post("/facts", """[{"sourceId":"xylo-3","kind":"oestrus","animal":"hexacow","date":"2026-10-01"}]""")).Status);

        // It does log, and what it says is of use.
        Assert.True(await log.Has(line => line.Contains("GET /locations/{scheme}/{id}/animals/{animal}/test-window 400", StringComparison.Ordinal)), log.Text);
        Assert.True(await log.Has(line => line.StartsWith("Error", StringComparison.Ordinal) && line.Contains("POST /locations/{scheme}/{id}/facts failed", StringComparison.Ordinal) && line.Contains("   at ReproLink.", StringComparison.Ordinal)), log.Text);
        Assert.True(await log.Has(line => line.Contains("POST /locations/{scheme}/{id}/facts 500", StringComparison.Ordinal)), log.Text);
        foreach (var word in new[] { "hexa", "grimble", "quillfarm", "Marrowdale", "Brontobull", "xylo", "snark", "Zebedee", secret, link.Split("link=")[1] })
        {
            Assert.DoesNotContain(word, log.Text, StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public void Failure_IsWrittenWithoutItsMessages()
    {
        var text = FailureText.Of(Thrown(() => throw new InvalidOperationException("animal hexacow", new FormatException("'hexacow' is no number"))));
        Assert.Contains("System.InvalidOperationException", text, StringComparison.Ordinal);
        Assert.Contains("caused by System.FormatException", text, StringComparison.Ordinal);
        Assert.Contains(nameof(Failure_IsWrittenWithoutItsMessages), text, StringComparison.Ordinal);
        Assert.DoesNotContain("hexacow", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Failure_OfTheDisk_SaysWhat() =>
        Assert.Contains("No space left", FailureText.Of(new IOException("No space left on device")), StringComparison.Ordinal);

    private static InvalidOperationException Thrown(Action act)
    {
        try
        {
            act();
        }
        catch (InvalidOperationException thrown)
        {
            return thrown;
        }

        throw new ArgumentException("It threw nothing.", nameof(act));
    }

    private sealed class LoggingHost(CapturedLog log) : ApiHostFixture
    {
        protected override void ConfigureWebHost(IWebHostBuilder builder)
        {
            base.ConfigureWebHost(builder);
            // All that can be turned on without naming a category of the web server.
            builder.UseSetting("Logging:LogLevel:Default", "Trace");
            builder.UseSetting("Logging:LogLevel:ReproLink.Requests", "Debug");
            builder.ConfigureServices(services => services.AddSingleton<ILoggerProvider>(log));
        }
    }
}
