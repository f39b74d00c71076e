using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.ProgrammeChecks;

/// <summary>Checks a programme before it is saved, with the same code that plans real animals (5.10).</summary>
public static class ProgrammeCheck
{
    /// <summary>The chains of a programme with their findings and proven suggestions.</summary>
    /// <param name="programme">The programme.</param>
    /// <param name="zone">The herd's time zone: hour intervals are elapsed hours.</param>
    /// <param name="week">Any day of the week of services to check.</param>
    public static CheckedProgramme Run(Programme programme, DateTimeZone zone, Day week)
    {
        ArgumentNullException.ThrowIfNull(programme);
        ArgumentNullException.ThrowIfNull(zone);
        var plain = ChainMaker.Of(programme, zone, week);
        return new CheckedProgramme([.. plain.Chains.Select(chain => chain with
        {
            Findings = [.. chain.Findings.Select(f => f with { Suggestion = Suggestions.For(f, chain, programme, zone, week) })],
        })]);
    }
}
