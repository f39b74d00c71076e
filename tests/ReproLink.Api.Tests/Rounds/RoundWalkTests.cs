using System.Diagnostics;
using System.Runtime.CompilerServices;

namespace ReproLink.Api.Tests.Rounds;

/// <summary>The script in docs/ does a whole round against the real demo; it checks itself as it goes.</summary>
public sealed class RoundWalkTests
{
    [SkippableFact]
    public async Task The_walk_in_the_docs_goes_through_against_the_demo()
    {
        Skip.IfNot(new[] { "bash", "curl", "jq" }.All(IsThere), "The walk needs bash, curl and jq.");
        using var demo = Process.Start(new ProcessStartInfo("dotnet",
            [typeof(Program).Assembly.Location, "demo", "--port", "5610", "--clock", "2026-10-05T06:00:00Z"])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        })!;
        try
        {
            var address = await Address(demo);
            using var walk = Process.Start(new ProcessStartInfo("bash", [Script(), address]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
            var (said, complained) = (walk.StandardOutput.ReadToEndAsync(), walk.StandardError.ReadToEndAsync());
            await walk.WaitForExitAsync();
            Assert.True(walk.ExitCode == 0, await said + await complained);
            Assert.Contains("R1 is answered", await said, StringComparison.Ordinal);
        }
        finally
        {
            demo.Kill();
            await demo.WaitForExitAsync();
        }
    }

    private static async Task<string> Address(Process demo)
    {
        var address = "";
        while (await demo.StandardOutput.ReadLineAsync() is { } line)
        {
            var at = line.IndexOf("http://127.0.0.1:", StringComparison.Ordinal);
            if (address.Length == 0 && at >= 0)
            {
                address = new Uri(line[at..].Trim()).GetLeftPart(UriPartial.Authority);
            }

            if (line.StartsWith("Ctrl-C", StringComparison.Ordinal))
            {
                _ = demo.StandardOutput.ReadToEndAsync();
                _ = demo.StandardError.ReadToEndAsync();
                return address;
            }
        }

        throw new InvalidOperationException(await demo.StandardError.ReadToEndAsync());
    }

    private static bool IsThere(string program) => (Environment.GetEnvironmentVariable("PATH") ?? "")
        .Split(Path.PathSeparator).Any(folder => File.Exists(Path.Combine(folder, program)));

    private static string Script([CallerFilePath] string here = "") =>
        Path.GetFullPath(Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "docs", "round-walk.sh"));
}
