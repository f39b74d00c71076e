using System.CommandLine;
using System.CommandLine.Help;
using ReproLink.Api.Commands.Demo;
using ReproLink.Api.Commands.Importing;

namespace ReproLink.Api.Commands;

/// <summary>The program's commands. Without one it serves.</summary>
internal static class CommandLine
{
    public const int Done = 0;
    public const int SomeRejected = 1;
    public const int Failed = 1;
    public const int NotUnderstood = 2;

    private const string Description = """
        Dates for pregnancy testing in a dairy herd: which cows to bleed, on which day, and why not the others.

        Without a command it serves. `ReproLink.Api COMMAND --help` explains a command.
        """;

    public static Task<int> Run(string[] args)
    {
        var root = new RootCommand(Description);
        ServeCommand.MakeDefault(root, args);
        root.Add(ServeCommand.Make(args));
        root.Add(DemoCommand.Make());
        root.Add(ImportCommand.Make());
        root.Add(KeysCommand.Make());
        root.Add(BackupCommand.Make());
        root.Add(ExportCommand.Make());
        var help = root.Options.OfType<HelpOption>().Single();
        help.Action = new ExplainedCommand.Help((HelpAction)help.Action!);
        return Run(root, args);
    }

    private static async Task<int> Run(RootCommand root, string[] args)
    {
        var parsed = root.Parse(args, new ParserConfiguration { ResponseFileTokenReplacer = null });
        if (parsed.Errors.Count > 0)
        {
            return Refuse(parsed.Errors.Select(e => e.Message));
        }

        // Serving looks at what no option took itself: the host's own settings are among it.
        if (parsed.UnmatchedTokens.Count > 0 && parsed.CommandResult.Command is not RootCommand and not { Name: ServeCommand.Name })
        {
            return Refuse(parsed.UnmatchedTokens.Select(t => $"'{t}' is no option or argument of '{parsed.CommandResult.Command.Name}'."));
        }

        try
        {
            // Whoever hosts this program in a test stops it by an exception of its own, which must pass; and Ctrl-C is the host's.
            return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = null });
        }
        catch (CommandException refused)
        {
            Console.Error.WriteLine(refused.Message);
            return refused.ExitCode;
        }
    }

    private static int Refuse(IEnumerable<string> messages)
    {
        foreach (var message in messages)
        {
            Console.Error.WriteLine(message);
        }

        Console.Error.WriteLine("Commands: serve, demo, import, export, keys, backup. Add --help to any of them.");
        return NotUnderstood;
    }
}

/// <summary>A command that cannot go on, in words for the person who typed it.</summary>
internal sealed class CommandException(string message, int exitCode = CommandLine.NotUnderstood) : Exception(message)
{
    public int ExitCode { get; } = exitCode;
}
