using System.Diagnostics;

namespace ReproLink.Api.Tests.Commands;

/// <summary>The program run as a person runs it.</summary>
/// <param name="ProcessId">Which process it was.</param>
/// <param name="Code">Exit code.</param>
/// <param name="Output">What it printed.</param>
/// <param name="Error">What it complained of.</param>
internal sealed record CommandRun(int ProcessId, int Code, string Output, string Error)
{
    public static async Task<CommandRun> Of(params string[] args)
    {
        var start = new ProcessStartInfo("dotnet", [typeof(Program).Assembly.Location, .. args])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Path.GetTempPath(),
        };
        using var process = Process.Start(start)!;
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(2));
        var output = process.StandardOutput.ReadToEndAsync(patience.Token);
        var error = process.StandardError.ReadToEndAsync(patience.Token);
        try
        {
            await process.WaitForExitAsync(patience.Token);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
            throw;
        }

        return new CommandRun(process.Id, process.ExitCode, await output, await error);
    }
}
