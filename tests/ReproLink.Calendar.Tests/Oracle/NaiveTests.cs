using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>T5 and T7: what one day's samples say.</summary>
internal static class NaiveTests
{
    public static void Samples(OracleCow cow, Day day, List<Fact> today, HerdRules rules)
    {
        var version = NaiveRules.Governing(cow, rules, day);
        var test = version.Programme.Test;
        if (IsSpoiled(today, rules, test))
            cow.Spoiled.Add(day);
        if (NaiveExaminations.Valid(cow, day, today).Count > 0 || NaiveRules.TooEarlyByT2OrT3(cow, test, day))
            return;
        var said = today.OfType<TestResult>().Where(r => NaiveRules.MethodDecides(r.Method, test))
            .Select(r => CountingFacts.Says(r, rules)).OfType<Outcome>()
            .Where(o => o != Outcome.Invalid).Distinct().ToList();
        if (said.Count > 1)
            cow.Troubles.Add(new Trouble('d', day));
        else if (said.Count == 1 && !TooEarlyByT1(cow, day, test.MinDaysPostService, said[0]))
            Sample(cow, day, said[0], version);
    }

    private static bool IsSpoiled(List<Fact> today, HerdRules rules, TestRules test)
    {
        var said = today.OfType<TestResult>().Where(r => NaiveRules.MethodDecides(r.Method, test)).Select(r => CountingFacts.Says(r, rules)).ToList();
        return said.Count > 0 && said.All(o => o == Outcome.Invalid);
    }

    private static void Sample(OracleCow cow, Day day, Outcome said, ProgrammeVersion version)
    {
        var test = version.Programme.Test;
        // After two in a row only a new service's own test decides.
        if (cow.DoubleRecheck && !cow.IsOwnTest(day, test.MinDaysPostService))
        {
            // An inconclusive one after the new service keeps the days to the next.
            if (said == Outcome.Recheck && cow.Attempts.Any(a => a.AfterDoubleRecheck))
                cow.Recheck = day;
            return;
        }

        if (said == Outcome.Recheck)
            Recheck(cow, day);
        else if (said == Outcome.Open && cow.Recheck is { } recheck && day - recheck < test.ResampleAfterDays)
            return;
        else if (cow.Troubles.Count > 0)
            SampleInConflict(cow, day, said, test);
        else if (said == Outcome.Open)
            Open(cow, day, version);
        else
            Pregnant(cow, day, test.MinDaysPostService, IsCaution(cow, day, test));
    }

    private static bool IsCaution(OracleCow cow, Day day, TestRules test) =>
        cow.Calved is { } calved && day - calved < test.CautionDaysInMilk;

    private static void SampleInConflict(OracleCow cow, Day day, Outcome said, TestRules test)
    {
        if (NaiveRules.ConflictEnds(cow, test) is not { } ends || ends.Any(b => day < b.Day))
            return;
        if (said == Outcome.Open)
        {
            EndConflicts(cow);
            cow.Pregnancy = null;
            FailCovered(cow, day, test.MinDaysPostService);
        }
        else
        {
            PregnantInConflict(cow, day, test.MinDaysPostService, IsCaution(cow, day, test));
        }
    }

    public static void EndConflicts(OracleCow cow)
    {
        cow.Troubles.Clear();
        cow.ForgetRecheck();
    }

    public static void FailCovered(OracleCow cow, Day day, int days) =>
        cow.Attempts.Where(a => a.CoveredForOpen(day, days)).ToList().ForEach(a => a.Failed = true);

    private static void Open(OracleCow cow, Day day, ProgrammeVersion version)
    {
        var test = version.Programme.Test;
        var accepted = (test.OpenAfterPregnant == OpenAfterPregnant.Accept && version.IsApprovedOn(day))
            || (cow.Pregnancy is { Caution: true } found && !IsCaution(cow, day, test) && !(day < found.RetestFrom));
        cow.ForgetRecheck();
        if (cow.Pregnancy is not null && !accepted)
        {
            cow.Troubles.Add(new Trouble('a', day));
            return;
        }

        cow.Pregnancy = null;
        FailCovered(cow, day, test.MinDaysPostService);
    }

    // An `open` that covers none of what is not failed, a `pregnant` of which not even a first day is covered.
    // With a pregnancy or a conflict c the result speaks of that, not of the later service.
    private static bool TooEarlyByT1(OracleCow cow, Day day, int days, Outcome said) => said switch
    {
        Outcome.Open => cow.Pregnancy is null && cow.NotFailed.Count > 0 && !cow.NotFailed.Any(a => a.CoveredForOpen(day, days)),
        Outcome.Pregnant => cow.Pregnancy is null && !cow.Has("c") && cow.Attempts.Count > 0 && cow.Attempts.All(a => !a.Failed)
            && !cow.Attempts.Any(a => a.CoveredForPregnant(day, days)),
        _ => false,
    };

    public static void Recheck(OracleCow cow, Day day)
    {
        if (cow.DoubleRecheck)
            cow.ForgetRecheck();
        cow.Recheck = day;
        cow.Row++;
        cow.DoubleRecheck = cow.Row >= 2;
    }

    public static void PregnantInConflict(OracleCow cow, Day day, int days, bool caution)
    {
        var again = cow.Troubles.Where(t => t is { Letter: 'b', Attempt: not null }).Select(t => t.Attempt!)
            .Where(a => a.IsExposure ? a.CoveredForPregnant(day, days) : a.CoveredForOpen(day, days)).ToList();
        var undated = cow.Has("c") && cow.Pregnancy is null;
        var first = cow.Troubles.Where(t => t.Letter == 'c').Select(t => t.Day).ToList();
        EndConflicts(cow);
        if (undated && !cow.NotFailed.Any(a => a.CoveredForPregnant(day, days)))
        {
            Stand(cow, day, [], caution);
            cow.Pregnancy!.Positives.InsertRange(0, first);
        }
        else if (again.Count > 0)
        {
            var before = cow.Pregnancy?.DatedBy ?? LatestFailed(cow);
            var undatedBefore = cow.Pregnancy is { From: null };
            // What was sure stays sure: with caution a single open would do to call her open.
            Stand(cow, day, undatedBefore ? [] : before.Concat(again).Distinct().ToList(), caution && cow.Pregnancy is not { Caution: false });
        }
        else
        {
            Pregnant(cow, day, days, caution);
        }
    }

    private static List<Attempt> LatestFailed(OracleCow cow) =>
        cow.Attempts.Where(a => a.Failed).OrderBy(a => a.Last!.Value.Number).ThenBy(a => a.IsExposure).TakeLast(1).ToList();

    // An exposure competes by its last covered day: the bull may have served on any day up to it.
    private static List<Attempt> Latest(IEnumerable<Attempt> attempts, Day day, int days) =>
        attempts.OrderBy(a => Day.Min(a.Last ?? day, day - days).Number).ThenBy(a => a.IsExposure).TakeLast(1).ToList();

    private static void Pregnant(OracleCow cow, Day day, int days, bool caution)
    {
        cow.ForgetRecheck();
        var candidates = cow.NotFailed.Where(a => a.CoveredForPregnant(day, days)).ToList();
        if (cow.Pregnancy is { } standing)
            Stand(cow, day, standing.DatedBy, caution && standing.Caution);
        else if (candidates.Count > 0)
            Stand(cow, day, Latest(candidates, day, days), caution);
        else if (cow.Attempts.Count == 0)
            cow.Troubles.Add(new Trouble('c', day));
        else if (cow.NotFailed.Count == 0)
            Stand(cow, day, LatestFailed(cow), caution);
        else
            DoubtNewer(cow, day, caution);
    }

    // T7 b: pregnant when all old services were failed and a newer one is too young: the old pregnancy stays underneath.
    private static void DoubtNewer(OracleCow cow, Day day, bool caution)
    {
        var newer = cow.NotFailed;
        Stand(cow, day, LatestFailed(cow), caution);
        cow.Troubles.AddRange(newer.Select(a => new Trouble('b', day, a)));
    }

    private static void Stand(OracleCow cow, Day day, List<Attempt> datedBy, bool caution)
    {
        var earlier = cow.Pregnancy?.Positives ?? [];
        var seen = datedBy.ToDictionary(a => a, a => cow.Pregnancy?.SeenOn.GetValueOrDefault(a, day) ?? day);
        cow.Pregnancy = new Standing { DatedBy = datedBy, SeenOn = seen, Caution = caution };
        cow.Pregnancy.Positives.AddRange([.. earlier, day]);
        datedBy.ForEach(a => a.Failed = false);
    }
}
