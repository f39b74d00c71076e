using Microsoft.Playwright;

namespace ReproLink.Browser.Tests;

/// <summary>The machine's Chromium; without one these tests skip and say so.</summary>
public sealed class Chromium : IAsyncLifetime
{
    public const string Missing = "No Chromium on this machine: install the package chromium, or name one in CHROMIUM.";

    private static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    private IPlaywright? _playwright;

    /// <summary>The browser; null = none on this machine.</summary>
    public IBrowser? Browser { get; private set; }

    public async Task InitializeAsync()
    {
        var path = Environment.GetEnvironmentVariable("CHROMIUM") ?? Places.FirstOrDefault(File.Exists);
        if (path is null)
        {
            return;
        }

        _playwright = await Playwright.CreateAsync();
        Browser = await _playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = path,
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync",
            ],
        });
    }

    public async Task DisposeAsync()
    {
        if (Browser is not null)
        {
            await Browser.DisposeAsync();
        }

        _playwright?.Dispose();
    }
}
