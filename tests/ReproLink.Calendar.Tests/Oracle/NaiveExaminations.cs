using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>T6: what one day's examinations say.</summary>
internal static class NaiveExaminations
{
    public const int UltrasoundDay = 28;
    public const int PalpationDay = 35;

    public static void Apply(OracleCow cow, Day day, List<Fact> today)
    {
        var valid = Valid(cow, day, today);
        var said = valid.Select(x => x.Outcome).ToList();
        if (today.OfType<Loss>().Any(l => l.Examined) && said.Count > 0)
            said.Add(Outcome.Open);
        if (said.Distinct().Count() > 1)
            cow.Troubles.Add(new Trouble('d', day));
        else if (said.Count > 0)
            Decide(cow, day, said[0], valid.Min(x => FirstDay(x.Method)));
    }

    private static void Decide(OracleCow cow, Day day, Outcome said, int days)
    {
        if (said == Outcome.Recheck)
        {
            if (!cow.DoubleRecheck || cow.Row == 0)
                NaiveTests.Recheck(cow, day);
        }
        else if (said == Outcome.Pregnant)
        {
            NaiveTests.PregnantInConflict(cow, day, days, false);
        }
        else
        {
            NaiveTests.EndConflicts(cow);
            if (cow.Pregnancy is { } standing && (standing.From is not { } from || from + days <= day))
                cow.Pregnancy = null;
            NaiveTests.FailCovered(cow, day, days);
        }
    }

    private static int FirstDay(TestMethod method) => method == TestMethod.Palpation ? PalpationDay : UltrasoundDay;

    public static List<Examination> Valid(OracleCow cow, Day day, List<Fact> today) =>
        today.OfType<Examination>().Where(x => x.Outcome != Outcome.Invalid)
            .Where(x => !TooEarly(cow, day, FirstDay(x.Method), x.Outcome)).ToList();

    /// <summary>Too early: after no service that is not failed, nor after the day that dates her; never without a service.</summary>
    public static bool TooEarly(OracleCow cow, Day day, int days, Outcome said)
    {
        if (cow.Attempts.Count == 0)
            return false;
        if (cow.Pregnancy is { } standing && (standing.From is not { } from || from + days <= day))
            return false;
        // Where everything failed, what failed must be old enough to be seen.
        var seen = cow.NotFailed.Count > 0 ? cow.NotFailed : cow.Attempts;
        return !seen.Any(a => said == Outcome.Open ? a.CoveredForOpen(day, days) : a.CoveredForPregnant(day, days));
    }
}
