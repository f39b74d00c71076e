using System.Diagnostics;
using System.Net;
using System.Text;

namespace ReproLink.Api.Tests.Commands;

/// <summary>A service that nobody has a key for prints a link on its console, and nowhere else.</summary>
public sealed class FirstLinkTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("reprolink-first-").FullName;

    private string Database => Path.Combine(_folder, "herds.db");

    [Fact]
    public async Task Serving_an_empty_store_prints_a_link_once_and_no_log_repeats_it()
    {
        using var service = Process.Start(new ProcessStartInfo(
            "dotnet",
            [typeof(Program).Assembly.Location, "serve", "--database", Database, "--urls", "http://127.0.0.1:0", "--Logging:LogLevel:Default=Trace", "--Logging:LogLevel:Microsoft.AspNetCore.Hosting.Diagnostics=Trace"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = _folder,
        })!;
        try
        {
            var said = new StringBuilder();
            using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(2));
            string? link = null;
            while (link is null && await service.StandardOutput.ReadLineAsync(patience.Token) is { } line)
            {
                said.AppendLine(line);
                link = line.Trim() is { } text && text.StartsWith("http://", StringComparison.Ordinal) && text.Contains("/welcome/", StringComparison.Ordinal) ? text : null;
            }

            Assert.NotNull(link);
            using var client = new HttpClient();
            using var page = await client.GetAsync(new Uri(link));
            Assert.Equal(HttpStatusCode.OK, page.StatusCode);
            service.Kill();
            said.Append(await service.StandardOutput.ReadToEndAsync(patience.Token)).Append(await service.StandardError.ReadToEndAsync(patience.Token));
            Assert.Equal(2, said.ToString().Split(link[(link.LastIndexOf('/') + 1)..]).Length);
        }
        finally
        {
            if (!service.HasExited)
            {
                service.Kill();
            }
        }

        var stored = Encoding.Latin1.GetString(await File.ReadAllBytesAsync(Database)) + (File.Exists(Database + "-wal") ? Encoding.Latin1.GetString(await File.ReadAllBytesAsync(Database + "-wal")) : "");
        Assert.DoesNotContain("rl_", stored, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("keys link --role manager --hours 0", "--hours: a number from 1")]
    [InlineData("keys link --role manager --address farm", "write an address such as")]
    [InlineData("keys link", "--role")]
    public async Task A_link_that_makes_no_sense_is_refused(string typed, string said)
    {
        var run = await CommandRun.Of([.. typed.Split(' '), "--database", Database]);
        Assert.Equal(2, run.Code);
        Assert.Contains(said, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_link_is_printed_by_a_command_for_a_role()
    {
        var run = await CommandRun.Of("keys", "link", "--role", "veterinarian", "--address", "https://farm.example/", "--database", Database);
        Assert.Equal(0, run.Code);
        Assert.StartsWith("https://farm.example/welcome/rl_", run.Output, StringComparison.Ordinal);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);
}
