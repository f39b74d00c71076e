using System.Runtime.CompilerServices;
using System.Text;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Tests.Protocols;

/// <summary>
/// The gates of every protocol as a table for a veterinarian to read. A change of any gate, interval or tolerance
/// shows here as a changed line; when it is meant, write the new table over the old.
/// </summary>
public sealed class GateTableTests
{
    [Fact]
    public void Gates_are_those_of_the_table() => Assert.Equal(File.ReadAllText(TablePath()), Table());

    private static string Table()
    {
        var table = new StringBuilder();
        foreach (var protocol in ProtocolLibrary.All.Values)
        {
            var start = protocol.Start is { } s ? $", {s.Rule} day {s.Day}" : "";
            table.Append($"{protocol.Id} ({protocol.Class}, {protocol.Use}, {protocol.StartSession}{start}, {protocol.Evidence})\n");
            foreach (var step in protocol.Steps) table.Append(Line(step)).Append('\n');
            table.Append('\n');
        }

        return table.ToString();
    }

    private static string Line(ProtocolStep step)
    {
        var interval = step.Days is { } days ? $"+{days} d" : $"+{step.Hours} h";
        var marks = (step.Optional ? " optional" : "") + (step.NeedsCorpusLuteum ? " needs-corpus-luteum" : "");
        return $"  {step.Id,-11} {(step.Gated ? "GATED" : "free"),-5} {interval,6} from {step.Anchor ?? "start",-10} -{step.EarlyHours}/+{step.LateHours} h {step.IfLate}{marks}";
    }

    private static string TablePath([CallerFilePath] string source = "") => Path.Combine(Path.GetDirectoryName(source)!, "gate-table.txt");
}
