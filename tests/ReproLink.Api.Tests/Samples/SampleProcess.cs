using System.Diagnostics;
using System.Runtime.CompilerServices;

namespace ReproLink.Api.Tests.Samples;

/// <summary>A program that is started, read line by line, and surely ended.</summary>
internal sealed class SampleProcess : IAsyncDisposable
{
    // No measure of speed: a sample that says nothing, or does not end, must not keep everybody waiting.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    private readonly Process _process;
    private readonly Task<string> _errors;

    private SampleProcess(Process process)
    {
        _process = process;
        // Read all the while: a full pipe would stop it.
        _errors = process.StandardError.ReadToEndAsync();
    }

    public int Id => _process.Id;

    public static SampleProcess Start(params string[] command) =>
        new(Process.Start(new ProcessStartInfo(command[0], command[1..]) { RedirectStandardOutput = true, RedirectStandardError = true })!);

    /// <summary>Runs a program to its end; its lines.</summary>
    public static async Task<string[]> Run(params string[] command)
    {
        await using var sample = Start(command);
        var output = await sample._process.StandardOutput.ReadToEndAsync().WaitAsync(Patience);
        await sample.End();
        return output.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
    }

    /// <summary>The command that runs a script of docs/samples, with further arguments.</summary>
    public static string[] Script(string name, params string[] arguments)
    {
        Skip.IfNot(
            (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(folder => File.Exists(Path.Combine(folder, "python3"))),
            $"docs/samples/{name} needs python3.");
        return ["python3", Path.GetFullPath(Path.Combine(Here(), "..", "..", "..", "docs", "samples", name)), .. arguments];
    }

    /// <summary>The next line with these words.</summary>
    public async Task<string> Until(string words)
    {
        while (await _process.StandardOutput.ReadLineAsync().WaitAsync(Patience) is { } line)
        {
            if (line.Contains(words, StringComparison.Ordinal))
            {
                return line;
            }
        }

        throw new InvalidOperationException($"It ended without a line with '{words}': {await _errors.WaitAsync(Patience)}");
    }

    /// <summary>Waits for its end, which must be a good one.</summary>
    public async Task End()
    {
        await _process.WaitForExitAsync().WaitAsync(Patience);
        Assert.True(_process.ExitCode == 0, $"It ended with {_process.ExitCode}: {await _errors.WaitAsync(Patience)}");
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            _process.Kill(entireProcessTree: true);
            await _process.WaitForExitAsync().WaitAsync(Patience);
        }

        _process.Dispose();
    }

    private static string Here([CallerFilePath] string file = "") => Path.GetDirectoryName(file)!;
}
