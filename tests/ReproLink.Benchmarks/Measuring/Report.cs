using System.Globalization;
using System.Runtime.InteropServices;

namespace ReproLink.Benchmarks.Measuring;

/// <summary>Prints what was measured beside its bare counterpart, with the budget and whether it holds.</summary>
public sealed class Report
{
    private readonly List<string> _lines = [];
    private readonly TextWriter _output;

    public Report(TextWriter output)
    {
        _output = output;
        Print($"{RuntimeInformation.FrameworkDescription}, {Environment.ProcessorCount} cores, {RuntimeInformation.OSDescription}");
        Print($"load before: {Load()}");
    }

    public void Begin(string name) => Print($"\n{name}  (load {Load()})");

    /// <summary>A note beside the figures.</summary>
    public void Note(FormattableString text) => Print("  " + FormattableString.Invariant(text));

    /// <summary>A ratio that must not be larger than its budget.</summary>
    public void AtMost(double budget, double ratio, FormattableString what) => Judge(ratio <= budget, "at most", budget, ratio, what);

    /// <summary>A ratio that must not be smaller than its budget.</summary>
    public void AtLeast(double budget, double ratio, FormattableString what) => Judge(ratio >= budget, "at least", budget, ratio, what);

    public void End()
    {
        Print("\nsummary");
        foreach (var line in _lines)
        {
            Print(line);
        }

        Print($"load after: {Load()}");
    }

    private void Judge(bool holds, string bound, double budget, double ratio, FormattableString what)
    {
        var text = FormattableString.Invariant(what);
        var line = string.Create(CultureInfo.InvariantCulture, $"  {text}: {ratio:0.###}, budget {bound} {budget:0.###}: {(holds ? "holds" : "over")}");
        _lines.Add(line);
        Print(line);
    }

    private void Print(string text) => _output.WriteLine(text);

    private static string Load() => File.Exists("/proc/loadavg") ? File.ReadAllText("/proc/loadavg").Trim() : "not known here";
}
