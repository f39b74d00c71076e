using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http.Features;
using NodaTime;
using NodaTime.Text;
using ReproLink.Api.Access;
using ReproLink.Api.Clock;
using ReproLink.Api.Limits;
using ReproLink.Api.Pages;
using ReproLink.Api.Pages.Forms;
using ReproLink.Api.Rounds;
using ReproLink.Api.Webhooks.Sending;
using ReproLink.Records;

namespace ReproLink.Api.Composition;

internal static class ServiceSetup
{
    public static void AddReproLink(this IServiceCollection services, ApiHostOptions options)
    {
        services.AddSingleton(options);
        services.AddSingleton(MakeClock);
        services.AddSingleton<IClock>(s => s.GetRequiredService<HerdClock>());
        services.AddSingleton<Keyless>();
        // Opened when first asked for: composing the service touches no file.
        services.AddSingleton(s => Store.Open(DatabasePath(s)));
        services.AddHostedService<StoreOpener>();
        services.AddRazorComponents();
        services.AddAntiforgery(forms =>
        {
            forms.Cookie.Name = "reprolink-form";
            forms.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        });
        services.AddDataProtection().SetApplicationName("ReproLink");
        services.AddSingleton<PageSession>();
        services.AddSingleton<FormDoor>();
        // A file of results travels through forms as text; a form about a round names each of its tubes.
        services.AddOptions<FormOptions>().Configure<ServiceLimits>((forms, limits) =>
        {
            forms.ValueLengthLimit = limits.BodyBytes;
            forms.MultipartBodyLengthLimit = limits.BodyBytes;
            forms.BufferBodyLengthLimit = limits.BodyBytes;
            forms.ValueCountLimit = RoundReader.MostTubes * 2;
        });
        services.AddWebhooks();
        services.ConfigureHttpJsonOptions(json => JsonSetup.Configure(json.SerializerOptions));
    }

    /// <summary>Where the database is, for the commands that open it without the service.</summary>
    public static string DatabasePath(ApiHostOptions options, IConfiguration configuration) =>
        options.Database ?? configuration["Database"] ?? "reprolink.db";

    private static string DatabasePath(IServiceProvider services) =>
        DatabasePath(services.GetRequiredService<ApiHostOptions>(), services.GetRequiredService<IConfiguration>());

    private static HerdClock MakeClock(IServiceProvider services)
    {
        var options = services.GetRequiredService<ApiHostOptions>();
        var trial = options.Demo || services.GetRequiredService<IHostEnvironment>().IsEnvironment(TestingEnvironment.Name);
        var asked = options.Clock;
        if (asked is null && services.GetRequiredService<IConfiguration>()["Clock"] is { Length: > 0 } text)
        {
            var parsed = InstantPattern.ExtendedIso.Parse(text);
            asked = parsed.Success
                ? parsed.Value
                : throw new BadSettingException($"--clock {text}: write an instant such as 2026-10-05T12:00:00Z.");
        }

        return new HerdClock(asked, trial);
    }
}

/// <summary>The host environment of trials: the clock may be set and no key is needed.</summary>
internal static class TestingEnvironment
{
    public const string Name = "Testing";
}

/// <summary>Opens the store as the service starts, so that a bad path stops it at once and not at the first request.</summary>
internal sealed class StoreOpener(IServiceProvider services) : IHostedService
{
    public Task StartAsync(CancellationToken cancellationToken)
    {
        services.GetRequiredService<Store>();
        return Task.CompletedTask;
    }

    public Task StopAsync(CancellationToken cancellationToken) => Task.CompletedTask;
}
