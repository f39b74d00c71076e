using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace ReproLink.Api.Commands;

/// <summary>A command whose description is one sentence in lists; its own help goes on with details and examples.</summary>
internal sealed class ExplainedCommand(string name, string explanation) : Command(name, FirstLine(explanation))
{
    private string Details { get; } = explanation[FirstLine(explanation).Length..].Trim('\n');

    private static string FirstLine(string text) => text.IndexOf('\n', StringComparison.Ordinal) is var end and >= 0 ? text[..end] : text;

    /// <summary>Prints the usual help and then the details.</summary>
    public sealed class Help(HelpAction usual) : SynchronousCommandLineAction
    {
        // Who asks for help may leave out what the command requires.
        public override bool ClearsParseErrors => true;

        public override int Invoke(ParseResult parseResult)
        {
            var code = usual.Invoke(parseResult);
            if (parseResult.CommandResult.Command is ExplainedCommand explained)
            {
                Console.WriteLine(explained.Details);
            }

            return code;
        }
    }
}
