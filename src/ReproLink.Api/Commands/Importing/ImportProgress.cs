using Spectre.Console;

namespace ReproLink.Api.Commands.Importing;

/// <summary>Shows how far an import is: a bar on a terminal, plain lines elsewhere.</summary>
internal static class ImportProgress
{
    /// <summary>Runs work that tells how many items it has done.</summary>
    public static Task Run(string title, int total, Func<Action<int>, Task> work) =>
        !Console.IsOutputRedirected && AnsiConsole.Profile.Capabilities.Interactive ? WithBar(title, total, work) : WithLine(title, total, work);

    private static Task WithBar(string title, int total, Func<Action<int>, Task> work) =>
        AnsiConsole.Progress().StartAsync(progress =>
        {
            var task = progress.AddTask(Markup.Escape(title), maxValue: total);
            return work(done => task.Increment(done));
        });

    private static async Task WithLine(string title, int total, Func<Action<int>, Task> work)
    {
        var done = 0;
        await work(more => done += more);
        Console.WriteLine($"{title}: {done} of {total}");
    }
}
