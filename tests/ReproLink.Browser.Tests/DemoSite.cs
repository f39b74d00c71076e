using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using NodaTime;
using ReproLink.Api.Commands.Demo;
using ReproLink.Api.Composition;
using ReproLink.Records;

namespace ReproLink.Browser.Tests;

/// <summary>The service with the invented herd on a real port, its clock standing on a Monday.</summary>
public sealed class DemoSite : IAsyncLifetime
{
    private static readonly Instant Now = Instant.FromUtc(2026, 10, 5, 12, 0);

    private readonly string _folder = Directory.CreateTempSubdirectory("reprolink-browser-").FullName;
    private WebApplication? _app;

    public string Address { get; private set; } = "";

    public Store Store => _app!.Services.GetRequiredService<Store>();

    public async Task InitializeAsync()
    {
        _app = ApiHost.Build(
            ["--environment", "Testing", "--urls", "http://127.0.0.1:0"],
            new ApiHostOptions { Database = Path.Combine(_folder, "herds.db"), Clock = Now });
        await new DemoHerd(Store, Now).Load();
        await _app.StartAsync();
        Address = _app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
    }

    public async Task DisposeAsync()
    {
        if (_app is not null)
        {
            await _app.DisposeAsync();
        }

        Directory.Delete(_folder, recursive: true);
    }
}
