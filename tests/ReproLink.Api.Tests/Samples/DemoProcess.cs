using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Samples;

/// <summary>The demo as people start it, as a process of its own, with a herd of its own.</summary>
internal sealed class DemoProcess : IAsyncDisposable
{
    /// <summary>A Monday on which samples are drawn, for what is printed of a fixed day.</summary>
    public static readonly string[] OnMonday = ["--clock", "2026-10-05T12:00:00Z"];

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("reprolink-sample-");
    private readonly SampleProcess _process;

    private DemoProcess(string[] options) =>
        _process = SampleProcess.Start(
            ["dotnet", typeof(Program).Assembly.Location, "demo", "--port", "5660", "--database", Path.Combine(_folder.FullName, "demo.db"), .. options]);

    /// <summary>Where it listens.</summary>
    public string Address { get; private set; } = "";

    /// <summary>The address of its herd.</summary>
    public string Location => Address + "/locations/demo/larch-hollow";

    public HttpClient Client { get; } = new();

    public static async Task<DemoProcess> Start(params string[] options)
    {
        var demo = new DemoProcess(options);
        try
        {
            var line = await demo._process.Until("http://127.0.0.1:");
            demo.Address = new Uri(line[line.IndexOf("http", StringComparison.Ordinal)..].Trim()).GetLeftPart(UriPartial.Authority);
            await demo._process.Until("Ctrl-C");
            return demo;
        }
        catch
        {
            await demo.DisposeAsync();
            throw;
        }
    }

    /// <summary>What an address of the herd answers.</summary>
    public async Task<JsonNode> Get(string path) => JsonNode.Parse(await Client.GetStringAsync(new Uri(Location + path)))!;

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _process.DisposeAsync();
        _folder.Delete(recursive: true);
    }
}
