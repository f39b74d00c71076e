using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>W1 to W3: answer, reason, need, window and the day on which the answer changes.</summary>
public sealed class NaiveWindow(IEnumerable<Fact> facts, HerdRules rules, Day asOf, Instant knownAt,
    Func<string?, Protocol?>? find = null, bool heldResult = false)
{
    private const int Horizon = 800;
    private static readonly string[] TieOrder = ["T1", "T2", "T3", "T4", "resample", "confirmation"];
    private readonly List<Fact> _facts = facts.ToList();
    private readonly Func<string?, Protocol?> _find = find ?? ProtocolLibrary.Find;

    /// <summary>The answer for a day from <c>asOf</c> on; null after she left.</summary>
    public OracleAnswer? Answer(Day on)
    {
        var cow = NaiveStatus.Fold(_facts, rules, asOf, knownAt);
        var test = NaiveRules.Governing(cow, rules, on).Programme.Test;
        if (cow.Left)
            return null;
        if (cow.DoNotBreed && !test.TestDoNotBreed)
            return NotNeeded("do-not-breed");
        var need = NaiveNeeds.Of(cow, rules, on);
        if (need is null)
            return NotNeeded(cow.Underneath is "pregnant" ? "confirmed-pregnant" : cow.Underneath);
        var samples = NaiveSamples.That(cow, rules, need, on, test);
        return samples.Awaited ? NotNeeded("awaiting-result") : Needed(cow, need, samples.Again, on, test);
    }

    /// <summary>The first later day whose (answer, need, overdue) differs, the facts frozen; null when there is none in 800 days.</summary>
    public Day? ChangesOn(Day on)
    {
        var now = Answer(on)?.Tuple;
        for (var n = 1; n <= Horizon; n++)
        {
            if (Answer(on + n)?.Tuple != now)
                return on + n;
        }

        return null;
    }

    private static OracleAnswer NotNeeded(string reason) => new("not-needed", reason, null, false, null, null);

    private OracleAnswer Needed(OracleCow cow, string underlying, Day? again, Day on, TestRules test)
    {
        var need = again is null ? underlying : "resample";
        if (Blocked(cow, underlying) is { } why)
            return new OracleAnswer("blocked", why, need, false, null, null);
        var bounds = NaiveNeeds.Bounds(cow, rules, underlying, on, test).OrderByDescending(b => b.Day.Number)
            .ThenBy(b => Array.IndexOf(TieOrder, b.Rule)).ToList();
        var opens = bounds.Count > 0 ? bounds[0].Day : on;
        var closes = Closes(cow, underlying, again, on, opens, test);
        Day? shown = bounds.Count > 0 ? opens : null;
        if (on < opens)
            return new OracleAnswer("not-yet", bounds[0].Rule, need, false, shown, closes);
        if (NaiveLaboratory.First(on, d => NaiveLaboratory.IsSamplingDay(rules, d)) is null)
            return new OracleAnswer("not-yet", "no-sampling-day", need, false, shown, closes);
        return new OracleAnswer("eligible", need, need, closes is { } last && on > last, shown, closes);
    }

    private string? Blocked(OracleCow cow, string need)
    {
        if (heldResult)
            return "held-result";
        var deadEnd = cow.DoubleRecheck && !cow.Attempts.Any(a => a.AfterDoubleRecheck);
        if (cow.Has("def") || deadEnd)
            return "examination-due";
        var bars = need is "first-test" or "resample" or "resolve-conflict";
        return bars && cow.NotFailed.Any(a => a.Last is null) ? "exposure-running" : null;
    }

    private Day? Closes(OracleCow cow, string underlying, Day? again, Day on, Day opens, TestRules test)
    {
        Day? closes = again is { } drawn ? drawn + test.ResampleWithinDays : underlying switch
        {
            "first-test" => NaiveCloses.FirstTest(cow, rules, on, opens, _find),
            "resample" => cow.Recheck!.Value + test.ResampleWithinDays,
            "confirmation" => NaiveNeeds.Confirmation(cow, rules, on)!.Value.To,
            _ => null,
        };
        return closes is { } day ? Day.Max(day, opens) : null;
    }
}
