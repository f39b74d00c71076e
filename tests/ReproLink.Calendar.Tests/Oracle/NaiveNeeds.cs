using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>W1: what she needs, and W2: the bounds on its first day.</summary>
internal static class NaiveNeeds
{
    /// <summary>The need her status gives, before samples are looked at; null = none.</summary>
    public static string? Of(OracleCow cow, HerdRules rules, Day on) => cow.Underneath switch
    {
        "conflict" => "resolve-conflict",
        "recheck" => "resample",
        "awaiting-test" => "first-test",
        "pregnant-caution" => "caution-retest",
        "pregnant" when Confirmation(cow, rules, on) is not null => "confirmation",
        _ => null,
    };

    /// <summary>
    /// The last window whose first day has come, if it is by a test and no positive inside it or later satisfies it.
    /// A missed one stays until the next begins.
    /// </summary>
    public static (Day From, Day To)? Confirmation(OracleCow cow, HerdRules rules, Day on)
    {
        if (cow.Pregnancy?.To is not { } dated)
            return null;
        var current = NaiveRules.Governing(cow, rules, on).Programme.Confirmations
            .Where(w => dated + w.From <= on).OrderBy(w => w.From).LastOrDefault();
        if (current is null || current.Method.IsExamination() || cow.Pregnancy.Positives.Any(p => p >= dated + current.From))
            return null;
        return (dated + current.From, dated + current.To);
    }

    /// <summary>Every bound on the first day of the window; the latest binds.</summary>
    public static List<OracleBound> Bounds(OracleCow cow, HerdRules rules, string need, Day on, TestRules test)
    {
        var bounds = NaiveRules.T2AndT3(cow, test);
        if (need is "first-test" or "resample" or "resolve-conflict")
            bounds.AddRange(NaiveRules.T1AndT4(cow, test));
        if (need is "resample" or "resolve-conflict" && cow.Recheck is { } recheck)
            bounds.Add(new OracleBound("resample", recheck + test.ResampleAfterDays));
        if (need == "resolve-conflict")
            bounds.AddRange(NaiveRules.ConflictEnds(cow, test) ?? []);
        if (need == "caution-retest" && cow.Calved is { } calved)
            bounds.Add(new OracleBound("T2", calved + test.CautionDaysInMilk));
        if (need == "caution-retest" && cow.Pregnancy?.RetestFrom is { } from)
            bounds.Add(new OracleBound("T2", from));
        if (need == "confirmation" && Confirmation(cow, rules, on) is { } window)
            bounds.Add(new OracleBound("confirmation", window.From));
        return bounds;
    }
}

/// <summary>W1: samples that could decide her need and have not done so.</summary>
internal static class NaiveSamples
{
    /// <summary>Whether a result is still expected; else the day of the latest sample that was spoiled or whose report is overdue.</summary>
    public static (bool Awaited, Day? Again) That(OracleCow cow, HerdRules rules, string need, Day on, TestRules test)
    {
        var results = cow.Counting.OfType<TestResult>().ToList();
        var unanswered = cow.Counting.OfType<Sample>().Where(s => test.Method == TestMethod.Milk || s.Specimen != "milk")
            .Select(s => s.Day).Where(d => CouldDecide(cow, rules, need, d, on, test) && results.All(r => r.Day != d)).ToList();
        var overdue = unanswered.Where(d => NaiveLaboratory.ReportOverdueFrom(rules, d) is { } from && from <= on).ToList();
        if (overdue.Count < unanswered.Count)
            return (true, null);
        var spoiled = cow.Spoiled.Where(d => CouldDecide(cow, rules, need, d, on, test));
        return (false, overdue.Concat(spoiled).Select(d => (Day?)d).OrderBy(d => d!.Value.Number).LastOrDefault());
    }

    private static bool CouldDecide(OracleCow cow, HerdRules rules, string need, Day day, Day on, TestRules test)
    {
        if ((cow.Calved is { } calved && day < calved) || NaiveRules.TooEarlyByT2OrT3(cow, test, day))
            return false;
        var covered = cow.NotFailed.Any(a => a.CoveredForOpen(day, test.MinDaysPostService));
        var resampled = (cow.Recheck is not { } recheck || day >= recheck + test.ResampleAfterDays)
            && (!cow.DoubleRecheck || cow.IsOwnTest(day, test.MinDaysPostService));
        var speaks = covered || cow.NotFailed.Count == 0 || cow.Pregnancy is not null || cow.Has("c");
        return need switch
        {
            "first-test" => covered,
            "resample" => resampled && speaks,
            "resolve-conflict" => resampled && speaks && NaiveRules.ConflictEnds(cow, test) is { } ends && ends.All(b => day >= b.Day)
                && day.Number >= cow.Troubles.Max(t => t.Day.Number),
            "caution-retest" => cow.Calved is { } c && day >= c + test.CautionDaysInMilk && !(day < cow.Pregnancy?.RetestFrom),
            _ => Confirmation(cow, rules, day, on),
        };
    }

    private static bool Confirmation(OracleCow cow, HerdRules rules, Day day, Day on) =>
        NaiveNeeds.Confirmation(cow, rules, on) is { } window && day >= window.From;
}
