using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>What earlier answers take from an `open` blood result.</summary>
public static partial class PossiblyPregnant
{
    // Sooner than 7 days after an inconclusive one, or after two in a row with no service since.
    private static bool RecheckForbids(Day open, List<Fact> since, Day? calved)
    {
        var answers = since.Where(f => f.Day < open).Select(f => f switch
        {
            TestResult { Method: TestMethod.Blood } r when r.Outcome != Outcome.Invalid && LateEnough(r.Day, since, calved) => (r.Day, r.Outcome),
            Examination x when x.Outcome != Outcome.Invalid => (x.Day, x.Outcome),
            _ => ((Day Day, Outcome? Said)?)null,
        }).OfType<(Day Day, Outcome? Said)>().DistinctBy(a => a.Day).ToList();
        if (answers.Count == 0 || answers[^1].Said != Outcome.Recheck)
            return false;
        var twice = answers.Count > 1 && answers[^2].Said == Outcome.Recheck;
        return open - answers[^1].Day < 7 || (twice && !since.OfType<Service>().Any(s => s.Day > answers[^2].Day && s.Day <= open));
    }

    private static bool LateEnough(Day sampled, List<Fact> since, Day? calved) =>
        (calved is not { } c || sampled - c >= 60) && since.OfType<Loss>().All(l => l.Day > sampled || sampled - l.Day >= 14);

    // One `open` does not undo a `pregnant`: a second, 7 days later, does, and so do a loss, an examination, or what T7 b and g judge.
    private static bool NeedsAnotherOpen(
        Day open, List<Fact> since, List<Service> services, List<Exposure> exposures, Day? calved, HerdRules rules)
    {
        var never = services.Count == 0 && exposures.Count == 0;
        var positive = since.OfType<TestResult>().LastOrDefault(r => r.Outcome == Outcome.Pregnant && r.Method == TestMethod.Blood
            && r.Day < open && LateEnough(r.Day, since, calved)
            && (never || services.Any(s => r.Day - s.DayZero >= FirstDay) || exposures.Any(e => r.Day - e.Day >= FirstDay)));
        if (positive is null)
            return false;
        var caution = calved is { } c && positive.Day - c < rules.Versions.Max(v => v.Programme.Test.CautionDaysInMilk);
        var soon = open - positive.Day < 7;
        // T7 c: nothing on record that could have made her pregnant. Any valid sample 7 days later ends it, in every version; and
        // after a second positive in the days of caution T2 wants as much.
        if (never)
            return soon && !since.Any(f => f.Day >= positive.Day && f.Day <= open && f is (Loss or Examination { Outcome: Outcome.Open }));
        if (rules.Versions.Any(v => v.Programme.Test.OpenAfterPregnant == OpenAfterPregnant.Accept))
            return false;
        var undone = since.Any(f => f.Day >= positive.Day && f.Day <= open
            && f is (Loss or Examination { Outcome: Outcome.Open } or Service or Exposure or Oestrus or Treatment { Agent: Agent.Pgf, NotDone: false }));
        var again = since.OfType<TestResult>().Any(r => r.Outcome == Outcome.Open && r.Day > positive.Day && open - r.Day >= 7);
        var youngerService = services.Any(s => positive.Day - s.DayZero < FirstDay) || exposures.Any(e => positive.Day - e.Day < FirstDay);
        return (!caution || (soon && FoundTwice(since, positive, calved))) && !undone && !again && !youngerService;
    }

    // An earlier positive that counted, and nothing since that spoke against it or began anew.
    private static bool FoundTwice(List<Fact> since, TestResult positive, Day? calved)
    {
        var before = since.OfType<TestResult>().LastOrDefault(r => r.Outcome == Outcome.Pregnant && r.Method == TestMethod.Blood
            && r.Day < positive.Day && LateEnough(r.Day, since, calved));
        return before is not null && since.OfType<Service>().Any(s => before.Day - s.DayZero >= FirstDay)
            && !since.Any(f => f.Day >= before.Day && f.Day <= positive.Day
                && f is (Loss or Examination or Service or Exposure or Oestrus or Treatment { NotDone: false } or TestResult { Outcome: not Outcome.Pregnant }));
    }
}
