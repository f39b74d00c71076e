using System.Diagnostics;
using System.Net.Http.Json;
using System.Runtime.CompilerServices;
using System.Text.Json.Nodes;

namespace ReproLink.Api.Tests.Webhooks;

/// <summary>The receiver in docs/ is told by the real demo, and reads on.</summary>
public sealed class SampleTests
{
    // No measure of speed: a sample that is not told, or does not end, must not keep everybody waiting.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    [SkippableFact]
    public async Task The_receiver_in_the_docs_is_told_and_reads_on()
    {
        Skip.IfNot((Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(folder => File.Exists(Path.Combine(folder, "python3"))),
            "The sample needs python3.");
        var folder = Directory.CreateTempSubdirectory("reprolink-sample-");
        using var demo = Start("dotnet", [typeof(Program).Assembly.Location, "demo", "--port", "5660", "--database", Path.Combine(folder.FullName, "demo.db")]);
        try
        {
            var line = await Until(demo, "http://127.0.0.1:");
            var address = new Uri(line[line.IndexOf("http", StringComparison.Ordinal)..].Trim()).GetLeftPart(UriPartial.Authority);
            await Until(demo, "Ctrl-C");
            await Receive(address + "/locations/demo/larch-hollow").WaitAsync(Patience);
        }
        finally
        {
            demo.Kill();
            await demo.WaitForExitAsync();
            folder.Delete(recursive: true);
        }
    }

    private static async Task Receive(string location)
    {
        using var client = new HttpClient();
        using var receiver = Start("python3", [Script(), location]);
        try
        {
            Assert.StartsWith("told at port", await Until(receiver, "told"), StringComparison.Ordinal);
            Assert.Equal("message webhook.test {}", await Until(receiver, "message "));
            var today = DateTime.UtcNow.AddDays(-2).ToString("yyyy-MM-dd", null);
            using var posted = await client.PostAsJsonAsync(new Uri(location + "/facts"), new[] { new { sourceId = "sample-1", kind = "oestrus", animal = "sample", date = today } });
            var fact = JsonNode.Parse(await posted.Content.ReadAsStringAsync())!["results"]![0]!["factId"];
            Assert.Equal("""message herd.changed {"fact": 1}""", await Until(receiver, "message "));
            Assert.Equal($"change fact sample {fact}", await Until(receiver, "change "));

            var forged = await client.PostAsJsonAsync(new Uri((string)(await Hooks(client, location))[0]!["url"]!), new { type = "herd.changed", data = new { } });
            Assert.Equal(401, (int)forged.StatusCode);
            using var stop = Process.Start("python3", ["-c", $"import os; os.kill({receiver.Id}, 2)"]);
            await receiver.WaitForExitAsync().WaitAsync(Patience / 3);
            Assert.True(receiver.ExitCode == 0, await receiver.StandardError.ReadToEndAsync());
            Assert.Empty(await Hooks(client, location));
        }
        finally
        {
            receiver.Kill();
        }
    }

    private static async Task<JsonArray> Hooks(HttpClient client, string location) =>
        JsonNode.Parse(await client.GetStringAsync(new Uri(location + "/webhooks")))!["webhooks"]!.AsArray();

    private static async Task<string> Until(Process process, string words)
    {
        while (true)
        {
            var line = await Line(process);
            if (line.Contains(words, StringComparison.Ordinal))
            {
                return line;
            }
        }
    }

    private static async Task<string> Line(Process process) =>
        await process.StandardOutput.ReadLineAsync() ?? throw new InvalidOperationException(await process.StandardError.ReadToEndAsync());

    private static Process Start(string program, string[] arguments) =>
        Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;

    private static string Script([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "docs", "samples", "webhook_receiver.py"));
}
