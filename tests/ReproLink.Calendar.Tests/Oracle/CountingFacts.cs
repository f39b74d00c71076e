using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>Which facts count (F1, F2, F4, F6), said again in the plainest way.</summary>
internal static class CountingFacts
{
    /// <summary>Facts known and occurred, in the order of a day (F3), those before birth and those while she had left taken out.</summary>
    public static List<Fact> Of(IEnumerable<Fact> facts, HerdRules rules, Day asOf, Instant knownAt)
    {
        var known = facts.Where(f => f.Recorded <= knownAt && HasOccurred(f, rules, asOf, knownAt)).ToList();
        var born = known.OfType<AnimalCard>().OrderBy(c => c.Day.Number).ThenBy(c => c.Source, StringComparer.Ordinal)
            .ThenBy(c => c.SourceId, StringComparer.Ordinal).LastOrDefault()?.Born;
        var ordered = known.Order(FactOrder.Instance).ToList();
        var here = true;
        var counting = new List<Fact>();
        foreach (var fact in ordered)
        {
            if (fact is AnimalCard || (fact is Confirm { Dated: false }))
            {
                counting.Add(fact);
                continue;
            }

            if (born is { } birth && fact.Day < birth)
                continue;
            if (fact is Arrival)
                here = true;
            if (here)
                counting.Add(fact);
            if (fact is Departure)
                here = false;
        }

        return counting.Select(f => f is Exposure { Until: { } until } e && until > asOf ? e with { Until = null } : f).ToList();
    }

    private static bool HasOccurred(Fact fact, HerdRules rules, Day asOf, Instant knownAt)
    {
        if (fact is AnimalCard { Dated: false } or Confirm { Dated: false })
            return true;
        if (fact.Day > asOf)
            return false;
        Instant? reported = fact is TestResult r ? r.Known : fact is Examination x ? x.Known : null;
        return reported is not { } at || (at <= knownAt && at < rules.EndOf(asOf));
    }

    /// <summary>Heifer: a card that says parity 0 and no calving; the largest parity of all cards counts.</summary>
    public static bool IsHeifer(List<Fact> counting) =>
        !counting.OfType<Calving>().Any() && counting.OfType<AnimalCard>().Max(c => c.Parity) == 0;

    /// <summary>T8: what a result says by the cut-offs in force on the sample day; null = nothing.</summary>
    public static Outcome? Says(TestResult result, HerdRules rules)
    {
        var test = rules.On(result.Day).Programme.Test;
        if (result.Value is not { } value || test.CutOffs is not { } cut || result.Assay != test.Assay || result.Unit != cut.Unit)
            return result.Outcome;
        if (result.Outcome == Outcome.Invalid)
            return Outcome.Invalid;
        var byValue = value < cut.OpenBelow ? Outcome.Open : value > cut.PregnantAbove ? Outcome.Pregnant : Outcome.Recheck;
        return result.Outcome is { } said && said != byValue ? Outcome.Recheck : byValue;
    }
}
