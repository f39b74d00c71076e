using ReproLink.Api.About;
using ReproLink.Api.Access;
using ReproLink.Api.Accuracy;
using ReproLink.Api.Animals;
using ReproLink.Api.Archives;
using ReproLink.Api.Bleeding;
using ReproLink.Api.Changes;
using ReproLink.Api.Clock;
using ReproLink.Api.Exchange;
using ReproLink.Api.Facts;
using ReproLink.Api.Feeds;
using ReproLink.Api.Figures;
using ReproLink.Api.HeldResults;
using ReproLink.Api.Herds;
using ReproLink.Api.Intake;
using ReproLink.Api.Labels;
using ReproLink.Api.Limits;
using ReproLink.Api.Metering;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Pages;
using ReproLink.Api.Problems;
using ReproLink.Api.Programmes;
using ReproLink.Api.Protocols;
using ReproLink.Api.ReceivedResults;
using ReproLink.Api.Rounds;
using ReproLink.Api.Transfer;
using ReproLink.Api.Webhooks;
using ReproLink.Api.WhatIf;
using ReproLink.Api.Work;

namespace ReproLink.Api.Composition;

/// <summary>Builds the service. Nothing is read or written before it runs.</summary>
public static class ApiHost
{
    public static WebApplication Build(string[] args, ApiHostOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        var builder = WebApplication.CreateBuilder(args);
        // A line for every request would be most of the work of a small request.
        builder.Logging.AddFilter("Microsoft.AspNetCore", LogLevel.Warning);
        // It writes addresses, which hold animals and secrets of links, and puts them around every line of others.
        builder.Logging.AddFilter("Microsoft.AspNetCore.Hosting.Diagnostics", LogLevel.None);
        builder.Services.AddReproLink(options);
        builder.Services.AddReproLinkOpenApi();
        builder.Services.AddTransfer();
        builder.Services.AddLimits();
        builder.Services.AddSingleton<ServiceMetrics>();
        var app = builder.Build();
        // Settles here, before anything runs, whether a clock that was asked for may be set at all, and whether the limits make sense.
        app.Services.GetRequiredService<HerdClock>();
        app.Services.GetRequiredService<ServiceLimits>();
        if (options.Watched)
        {
            app.UseMiddleware<RequestMeter>();
        }

        app.UseResponseCompression();
        app.UseExchangeErrors();
        // First of all which address it is: a failure is logged by it, wherever it happens.
        app.UseRouting();
        app.UseMiddleware<ProblemMiddleware>();
        app.UseMiddleware<KeyMiddleware>();
        if (options.Watched)
        {
            app.UseRateLimiter();
        }

        app.UseMiddleware<EntityTags>();
        app.UseMiddleware<HerdAccessMiddleware>();
        app.UseReproLinkOpenApi();
        app.UseMiddleware<PageReader>();
        app.UseAntiforgery();
        app.UseMiddleware<ExpiredForms>();
        MapResources(app);
        return app;
    }

    private static void MapResources(WebApplication app)
    {
        app.MapAbout();
        app.MapMetrics();
        app.MapPages();
        app.MapProblemPages();
        app.MapClock();
        app.MapExchange();
        var herd = app.MapGroup("/locations/{scheme}/{id}");
        herd.MapHerds();
        herd.MapFacts();
        herd.MapTestResults();
        herd.MapProgrammes();
        herd.MapBleedLists();
        herd.MapAnimals();
        herd.MapWorkCalendar();
        herd.MapFigures();
        herd.MapProtocols();
        herd.MapFeeds();
        herd.MapChanges();
        herd.MapWebhooks();
        herd.MapRounds();
        herd.MapPrints();
        herd.MapMappings();
        herd.MapFactMappings();
        herd.MapReceived();
        herd.MapHeldResults();
        herd.MapWhatIf();
        herd.MapTestAccuracy();
        herd.MapArchives();
    }
}
