using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>Bounds of T1 to T4 and T7, and the version that governs (S10).</summary>
internal static class NaiveRules
{
    /// <summary>By the latest service (exposure: its last possible day); never served: the calving, else the day asked.</summary>
    public static ProgrammeVersion Governing(OracleCow cow, HerdRules rules, Day asked) =>
        rules.On(cow.Attempts.Count > 0 ? cow.Attempts.Max(a => a.Done ?? a.Last ?? asked) : cow.Calved ?? asked);

    public static List<OracleBound> T1AndT4(OracleCow cow, TestRules test) =>
        cow.NotFailed.Where(a => a.Last is not null)
            .Select(a => new OracleBound(a.IsExposure ? "T4" : "T1", a.Last!.Value + test.MinDaysPostService)).ToList();

    public static List<OracleBound> T2AndT3(OracleCow cow, TestRules test)
    {
        var bounds = cow.Losses.Select(l => new OracleBound("T3", l.Day + Clearance(l.Age, test))).ToList();
        if (cow.Calved is { } calved)
            bounds.Add(new OracleBound("T2", calved + test.MinDaysInMilk));
        return bounds;
    }

    private static int Clearance(int? age, TestRules test) =>
        age is { } days && days < test.LateLossFromDay ? test.ClearanceEarlyLoss : test.ClearanceLateLoss;

    public static bool TooEarlyByT2OrT3(OracleCow cow, TestRules test, Day day) =>
        T2AndT3(cow, test).Any(b => day < b.Day);

    /// <summary>Days from which a sample can end each conflict; null = none ever can (d, e, f, or the bull is in).</summary>
    public static List<OracleBound>? ConflictEnds(OracleCow cow, TestRules test)
    {
        if (cow.Has("def") || cow.Troubles.Any(t => t is { Letter: 'b', Attempt: { Last: null } }))
            return null;
        var bounds = cow.Troubles.Where(t => t.Letter is 'a' or 'c').Select(t => new OracleBound("resample", t.Day + 7)).ToList();
        bounds.AddRange(cow.Troubles.Where(t => t.Letter == 'g').Select(t => new OracleBound("resample", t.Day + 21)));
        // Oestrus asks for its seven days also beside a service: seen late it may be the loss that the blood lags behind.
        bounds.AddRange(cow.Troubles.Where(t => t.Letter == 'b').Select(t => t.Attempt is { } again
            ? new OracleBound(again.IsExposure ? "T4" : "T1", again.Last!.Value + test.MinDaysPostService)
            : new OracleBound("resample", t.Day + 7)));
        return bounds;
    }

    /// <summary>Milk decides only where the programme configures a milk test (T1).</summary>
    public static bool MethodDecides(TestMethod method, TestRules test) =>
        method != TestMethod.Milk || test.Method == TestMethod.Milk;
}
