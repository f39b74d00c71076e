using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;
using ReproLink.Records;

namespace ReproLink.Api.Tests.Support;

/// <summary>The service in memory over a database file of its own, its clock standing at a Monday noon.</summary>
public class ApiHostFixture : WebApplicationFactory<Program>
{
    public const string Start = "2026-10-05T12:00:00Z";

    private readonly string _folder = Directory.CreateTempSubdirectory("reprolink-api-").FullName;

    /// <summary>The host environment.</summary>
    public string Environment { get; init; } = "Testing";

    /// <summary>Settings beside those every test has.</summary>
    public IReadOnlyDictionary<string, string> Settings { get; init; } = new Dictionary<string, string>();

    /// <summary>The store behind the service, for keys: they are made by a command, not over HTTP.</summary>
    public Store Store => Services.GetRequiredService<Store>();

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        builder.UseEnvironment(Environment);
        builder.UseSetting("Database", Path.Combine(_folder, "herds.db"));
        if (Environment == "Testing")
        {
            builder.UseSetting("Clock", Start);
        }

        foreach (var (name, value) in Settings)
        {
            builder.UseSetting(name, value);
        }
    }

    public override async ValueTask DisposeAsync()
    {
        await base.DisposeAsync();
        if (Directory.Exists(_folder))
        {
            Directory.Delete(_folder, recursive: true);
        }

        GC.SuppressFinalize(this);
    }
}
