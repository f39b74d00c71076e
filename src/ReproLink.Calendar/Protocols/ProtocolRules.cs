using System.Text.RegularExpressions;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Protocols;

/// <summary>What every protocol must obey, published or a herd's own.</summary>
internal static partial class ProtocolRules
{
    /// <summary>Longer than any gestation; also keeps sums of intervals far from overflow.</summary>
    private const int MostDays = 365;
    private const int MostHours = MostDays * 24;

    /// <summary>Everything wrong with a protocol; empty when it can be used.</summary>
    public static IEnumerable<string> Problems(string fileName, Protocol protocol)
    {
        var problems = OfDefinition(fileName, protocol).Concat(protocol.Steps.SelectMany((_, i) => OfStep(protocol, i))).ToList();
        // Times can be added up only once every anchor and interval is sound.
        return problems.Count > 0 ? problems : OfOrder(protocol).Concat(OfWhole(protocol));
    }

    private static IEnumerable<string> OfDefinition(string fileName, Protocol protocol)
    {
        if (fileName != protocol.Id + ".json") yield return $"file name is '{fileName}', allowed is '{protocol.Id}.json'";
        if (!KebabCase().IsMatch(protocol.Id)) yield return "id must be lower-case words joined by hyphens";
        if (protocol.Steps.IsEmpty) yield return "steps is empty";
        foreach (var twice in protocol.Steps.GroupBy(s => s.Id, StringComparer.Ordinal).Where(g => g.Count() > 1))
            yield return $"duplicate step id '{twice.Key}'";
    }

    private static IEnumerable<string> OfStep(Protocol protocol, int index)
    {
        var step = protocol.Steps[index];
        var problems = OfAnchor(protocol, index).Concat(OfInterval(step)).Concat(OfGate(step)).Concat(OfTolerance(step));
        return problems.Select(problem => $"step '{step.Id}': {problem}");
    }

    private static IEnumerable<string> OfAnchor(Protocol protocol, int index)
    {
        var step = protocol.Steps[index];
        if (!KebabCase().IsMatch(step.Id)) yield return "id must be lower-case words joined by hyphens";
        if (step.Anchor is null) yield break;
        var anchor = protocol.Steps.Select(s => s.Id).ToList().IndexOf(step.Anchor);
        if (anchor < 0) yield return $"unknown anchor '{step.Anchor}'";
        else if (anchor >= index) yield return $"anchor '{step.Anchor}' does not come before the step";
    }

    private static IEnumerable<string> OfInterval(ProtocolStep step)
    {
        if (step.Days is null && step.Hours is null) yield return "neither days nor hours is given, allowed is one of them";
        if (step.Days is not null && step.Hours is not null) yield return "both days and hours are given, allowed is one of them";
        if (step.Days < 0 || step.Hours < 0) yield return "negative interval";
        if (step.Days > MostDays || step.Hours > MostHours) yield return $"interval is longer than {MostDays} days";
    }

    private static IEnumerable<string> OfGate(ProtocolStep step)
    {
        if (step.Kind is StepKind.Pgf && !step.Gated) yield return "pgf must be gated (S4)";
        if (step.Kind is StepKind.Inseminate && !step.Gated) yield return "inseminate must be gated (S4)";
        if (step.Kind is StepKind.InsertOut && step.Gated) yield return "insert-out must not be gated (S4)";
    }

    private static IEnumerable<string> OfTolerance(ProtocolStep step)
    {
        if (step.EarlyHours < 0 || step.LateHours < 0) yield return "negative tolerance";
        if (step.EarlyHours > MostHours || step.LateHours > MostHours) yield return $"tolerance is longer than {MostDays} days";
        if (step.IfLate is IfLate.Alternative) yield return "ifLate is 'alternative' but no step can be named for it yet, allowed are lapse, skip";
    }

    private static IEnumerable<string> OfOrder(Protocol protocol)
    {
        if (protocol.HoursFromStart(protocol.Steps[0]) != 0) yield return $"step '{protocol.Steps[0].Id}': the first step must be at the start";
        foreach (var (earlier, later) in protocol.Steps.Zip(protocol.Steps.Skip(1)))
        {
            if (protocol.HoursFromStart(later) < protocol.HoursFromStart(earlier))
                yield return $"step '{later.Id}': out of order, it falls before '{earlier.Id}'";
        }
    }

    private static IEnumerable<string> OfWhole(Protocol protocol)
    {
        if (!protocol.Steps.Any(s => s.Kind is StepKind.Inseminate or StepKind.WatchOestrus))
            yield return "neither inseminate nor watch-oestrus: it ends in no service";
        foreach (var problem in OfInserts(protocol)) yield return problem;
        if (protocol.Start is { Rule: StartRule.BeforeResult, Day: null }) yield return "start: before-result needs a day";
        if (protocol.Start is { Day: < 1 or > MostDays }) yield return $"start: day must be 1 to {MostDays}";
        if (protocol.Start is { Rule: StartRule.BeforeResult } && protocol.Steps[0].Gated)
            yield return "start: before-result, but the first step is gated (S1)";
    }

    /// <summary>An insert that nobody is told to remove stays in; one that was never placed cannot be removed.</summary>
    private static IEnumerable<string> OfInserts(Protocol protocol)
    {
        string? placed = null;
        foreach (var step in protocol.Steps)
        {
            if (step.Kind is StepKind.InsertIn)
            {
                if (placed is not null) yield return $"step '{step.Id}': insert-in without insert-out of '{placed}' before it";
                placed = step.Id;
            }
            else if (step.Kind is StepKind.InsertOut)
            {
                if (placed is null) yield return $"step '{step.Id}': insert-out without insert-in";
                placed = null;
            }
        }

        if (placed is not null) yield return $"step '{placed}': insert-in without insert-out";
    }

    [GeneratedRegex("^[a-z0-9]+(-[a-z0-9]+)*$", RegexOptions.CultureInvariant)]
    private static partial Regex KebabCase();
}
