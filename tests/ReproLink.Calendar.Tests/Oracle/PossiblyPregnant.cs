using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>
/// Could she be pregnant on a day? Asked of the raw facts with the floors of the rules as plain numbers, not of a status:
/// it shares nothing with the engine nor with the rest of the oracle. Yes, unless the facts say no.
/// </summary>
public static partial class PossiblyPregnant
{
    private const int FirstDay = 28;
    private const int FirstDayPalpation = 35;

    public static bool On(IEnumerable<Fact> facts, HerdRules rules, Day asOf, Instant knownAt, Day day)
    {
        var known = WhileHere(facts.Where(f => f.Recorded <= knownAt && IsKnown(f, rules, asOf, knownAt)));
        var calved = known.OfType<Calving>().Select(c => (Day?)c.Day).LastOrDefault();
        var since = known.Where(f => calved is not { } c || f.Day >= c).Select(f => f is TestResult r ? Read(r, rules) : f).ToList();
        var services = since.OfType<Service>().ToList();
        var exposures = known.OfType<Exposure>().Where(e => calved is not { } c || LastDay(e, asOf, day) > c).ToList();
        if (Clearing(since, services, exposures, calved, asOf, day, rules) is { } looked)
            return DoubtedAfter(since, looked);
        if (services.Count > 0 || exposures.Count > 0)
            return true;
        return !HistoryKnown(known, calved) || DoubtedAfter(since, Day.Earliest) || CalvingContradicts(known, asOf);
    }

    private static bool IsKnown(Fact fact, HerdRules rules, Day asOf, Instant knownAt)
    {
        Instant? told = fact is TestResult r ? r.Known : (fact as Examination)?.Known;
        var undated = fact is AnimalCard { Dated: false } or Confirm { Dated: false };
        return (undated || fact.Day <= asOf) && (told is not { } at || (at <= knownAt && at < rules.EndOf(asOf)));
    }

    // Facts dated before her birth or while she had left are about another animal, or nobody.
    private static List<Fact> WhileHere(IEnumerable<Fact> facts)
    {
        var ordered = facts.Order(FactOrder.Instance).ToList();
        var born = ordered.OfType<AnimalCard>().LastOrDefault()?.Born ?? Day.Earliest;
        var left = false;
        var here = new List<Fact>();
        foreach (var fact in ordered)
        {
            left = left && fact is not Arrival;
            if (fact is AnimalCard or Confirm { Dated: false } || (!left && fact.Day >= born))
                here.Add(fact);
            left = left || (fact is Departure && fact.Day >= born);
        }

        return here;
    }

    // A number in the herd's own assay and unit speaks; where word and number differ nothing is sure.
    private static TestResult Read(TestResult result, HerdRules rules)
    {
        var test = rules.On(result.Day).Programme.Test;
        if (result.Outcome == Outcome.Invalid || result.Value is not { } value || test.CutOffs is not { } cut)
            return result;
        if (result.Assay != test.Assay || result.Unit != cut.Unit)
            return result;
        var number = value < cut.OpenBelow ? Outcome.Open : value > cut.PregnantAbove ? Outcome.Pregnant : Outcome.Recheck;
        return result with { Outcome = (result.Outcome ?? number) == number ? number : Outcome.Recheck };
    }

    private static Day LastDay(Exposure exposure, Day asOf, Day day) =>
        exposure.Until is { } until && until <= asOf ? until : day;

    // The latest `open` that is late enough after every service and exposure, after calving and after every loss.
    private static Day? Clearing(List<Fact> since, List<Service> services, List<Exposure> exposures, Day? calved, Day asOf, Day day, HerdRules rules)
    {
        var last = services.Select(s => s.DayZero).Concat(exposures.Select(e => LastDay(e, asOf, day)))
            .Select(d => (Day?)d).OrderBy(d => d!.Value.Number).LastOrDefault();
        var tests = since.OfType<TestResult>().Where(r => r.Outcome == Outcome.Open)
            .Where(r => calved is not { } c || r.Day - c >= 60)
            .Where(r => since.OfType<Loss>().All(l => l.Day > r.Day || r.Day - l.Day >= 14))
            .Where(r => r.Method != TestMethod.Milk || rules.Versions.Any(v => v.Programme.Test.Method == TestMethod.Milk))
            .Where(r => !RecheckForbids(r.Day, since, calved) && !NeedsAnotherOpen(r.Day, since, services, exposures, calved, rules))
            .Where(r => last is not { } l || r.Day - l >= FirstDay).Select(r => r.Day);
        var looks = since.OfType<Examination>().Where(x => x.Outcome == Outcome.Open)
            .Where(x => last is not { } l || x.Day - l >= (x.Method == TestMethod.Palpation ? FirstDayPalpation : FirstDay))
            .Select(x => x.Day);
        var seenLost = since.OfType<Loss>().Where(l => l.Examined && (last is not { } d || d < l.Day)).Select(l => l.Day);
        return tests.Concat(looks).Concat(seenLost).Select(d => (Day?)d).OrderBy(d => d!.Value.Number).LastOrDefault();
    }

    // Positive, inconclusive or contradictory later, or on the day itself unless a person looked and saw her open.
    private static bool DoubtedAfter(List<Fact> since, Day looked)
    {
        var seen = since.Any(f => f.Day == looked && f is (Examination { Outcome: Outcome.Open } or Loss { Examined: true }));
        return since.Any(f => f.Day >= looked && f switch
        {
            TestResult r => r.Outcome is (Outcome.Pregnant or Outcome.Recheck) && !(seen && r.Day == looked),
            Examination x => x.Outcome is Outcome.Pregnant or Outcome.Recheck,
            Loss l => !l.Examined && l.Day > looked,
            _ => false,
        });
    }

    private static bool HistoryKnown(List<Fact> known, Day? calved)
    {
        var arrived = known.OfType<Arrival>().Select(a => (Day?)a.Day).LastOrDefault();
        if (calved is { } c)
            return arrived is not { } a || a <= c;
        return arrived is null && known.OfType<AnimalCard>().Any(k => k.Parity == 0);
    }

    // A calving too soon after the latest service may be another cow's: then she is still what she was.
    private static bool CalvingContradicts(List<Fact> known, Day asOf)
    {
        var calving = known.OfType<Calving>().LastOrDefault();
        if (calving is null)
            return false;
        var confirmed = known.OfType<Confirm>().Any(k => (!k.Dated || k.Day <= asOf)
            && k.ConfirmsSource == calving.Source && k.ConfirmsSourceId == calving.SourceId);
        return !confirmed && known.OfType<Service>().Any(s => s.Day < calving.Day && calving.Day - s.DayZero < 200);
    }
}
