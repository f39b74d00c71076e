using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.ProgrammeChecks;

/// <summary>Checks a programme before it is saved, with the same code that plans real animals (5.10).</summary>
public static class ProgrammeCheck
{
    /// <summary>The chains of a programme with their findings and proven suggestions.</summary>
    /// <param name="programme">The programme.</param>
    /// <param name="herd">The herd: its time zone, as hour intervals are elapsed hours, and its own protocols.</param>
    /// <param name="week">Any day of the week of services to check.</param>
    public static CheckedProgramme Run(Programme programme, HerdRules herd, Day week)
    {
        ArgumentNullException.ThrowIfNull(programme);
        ArgumentNullException.ThrowIfNull(herd);
        var plain = ChainMaker.Of(programme, herd, week);
        return new CheckedProgramme([.. plain.Chains.Select(chain => chain with
        {
            Findings = [.. chain.Findings.Select(f => f with { Suggestion = Suggestions.For(f, chain, programme, herd, week) })],
        })]);
    }
}
