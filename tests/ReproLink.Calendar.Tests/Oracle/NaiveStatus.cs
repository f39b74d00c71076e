using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>
/// Status on a day, straight from the written rules, folded anew on every call. Slow on purpose: it is compared against the
/// engine, so it shares nothing with it but the facts, the programme and the count of days.
/// </summary>
public static class NaiveStatus
{
    public static OracleStatus Of(IEnumerable<Fact> facts, HerdRules rules, Day asOf, Instant knownAt)
    {
        var cow = Fold(facts, rules, asOf, knownAt);
        var letters = new string(cow.Troubles.Select(t => t.Letter).Distinct().Order().ToArray());
        return new OracleStatus(cow.Shown, cow.Underneath, letters, cow.Pregnancy?.From, cow.Pregnancy?.To, cow.Heifer);
    }

    internal static OracleCow Fold(IEnumerable<Fact> facts, HerdRules rules, Day asOf, Instant knownAt)
    {
        var counting = CountingFacts.Of(facts, rules, asOf, knownAt);
        var cow = new OracleCow { Counting = counting, Heifer = CountingFacts.IsHeifer(counting) };
        var days = counting.Where(f => f is not AnimalCard).Select(f => f.Day).Distinct().OrderBy(d => d.Number).ToList();
        foreach (var day in days)
        {
            var today = counting.Where(f => f.Day == day).ToList();
            today.OfType<Arrival>().ToList().ForEach(_ => cow.Left = false);
            today.OfType<Calving>().ToList().ForEach(c => Calve(cow, c));
            cow.Troubles.RemoveAll(t => t.Calving is { } c && IsConfirmed(cow, c, day - 1));
            today.OfType<Loss>().ToList().ForEach(l => Lose(cow, l));
            today.OfType<Oestrus>().ToList().ForEach(o => ComeAgain(cow, o.Day, null));
            today.OfType<Service>().ToList().ForEach(s => Serve(cow, s));
            today.OfType<Exposure>().ToList().ForEach(e => Expose(cow, e));
            NaiveTests.Samples(cow, day, today, rules);
            NaiveExaminations.Apply(cow, day, today);
            today.OfType<Treatment>().ToList().ForEach(t => Treat(cow, t));
            foreach (var fact in today.Where(f => f is DoNotBreed or BreedAgain))
                cow.DoNotBreed = fact is DoNotBreed;
            today.OfType<Departure>().ToList().ForEach(_ => cow.Left = true);
            cow.Troubles.RemoveAll(t => t.Calving is { } c && IsConfirmed(cow, c, day));
        }

        return cow;
    }

    // F6 ends e and f, from the end of the confirming day on; without a date always.
    private static bool IsConfirmed(OracleCow cow, Calving calving, Day day) => cow.Counting.OfType<Confirm>().Any(c =>
        c.ConfirmsSource == calving.Source && c.ConfirmsSourceId == calving.SourceId && (!c.Dated || c.Day <= day));

    // T7 e and f, then a new lactation. Exposures that last beyond the calving count for the new one (T4).
    private static void Calve(OracleCow cow, Calving calving)
    {
        var troubles = new List<Trouble>();
        if (cow.Underneath == "open")
            troubles.Add(new Trouble('e', calving.Day, null, calving));
        var dated = cow.Pregnancy?.From;
        if ((dated is { } from && calving.Day - from < 260) || (cow.LatestServiceEver is { } served && calving.Day - served < 200))
            troubles.Add(new Trouble('f', calving.Day, null, calving));
        cow.Troubles = troubles;
        cow.Pregnancy = null;
        cow.Losses = [];
        cow.Calved = calving.Day;
        cow.Attempts = cow.Attempts.Where(a => a.IsExposure && (a.Last is not { } last || last > calving.Day)).ToList();
        foreach (var exposure in cow.Attempts)
        {
            exposure.First = Day.Max(exposure.First, calving.Day);
            exposure.Failed = false;
        }

        cow.ForgetRecheck();
    }

    private static void Lose(OracleCow cow, Loss loss)
    {
        // Aged from the day that dates her; undiagnosed: from the oldest not failed; without any: unknown.
        Day? since = cow.Pregnancy is { } p ? p.From : cow.NotFailed.Count > 0 ? cow.NotFailed.Min(a => a.First) : null;
        cow.Losses.Add((loss.Day, since is { } s ? loss.Day - s : null));
        if (!loss.Examined)
        {
            cow.Troubles.Add(new Trouble('h', loss.Day));
            return;
        }

        var tooEarly = NaiveExaminations.TooEarly(cow, loss.Day, NaiveExaminations.UltrasoundDay, Outcome.Open);
        // An exposure that is not covered can still have made her pregnant again: only the dating service fails at any age.
        cow.Pregnancy?.DatedBy.Where(a => !a.IsExposure).ToList().ForEach(a => a.Failed = true);
        cow.Pregnancy = null;
        if (tooEarly)
            return;
        cow.Troubles.Clear();
        cow.ForgetRecheck();
        NaiveTests.FailCovered(cow, loss.Day, NaiveExaminations.UltrasoundDay);
    }

    // T7 b: served, seen in oestrus or with a bull again while a pregnancy stands.
    private static void ComeAgain(OracleCow cow, Day day, Attempt? attempt)
    {
        if (cow.Pregnancy is not null)
            cow.Troubles.Add(new Trouble('b', day, attempt));
    }

    private static void Serve(OracleCow cow, Service service)
    {
        cow.LatestServiceEver = Day.Max(cow.LatestServiceEver ?? Day.Earliest, service.DayZero);
        var attempt = cow.Attempts.LastOrDefault(a => a.IsInsemination);
        if (service is Insemination && attempt is not null && service.Day - attempt.First <= 3)
        {
            attempt.First = service.Day;
            attempt.Last = service.Day;
            attempt.Failed = false;
        }
        else
        {
            attempt = new Attempt
            {
                IsExposure = false,
                IsInsemination = service is Insemination,
                Done = service is EmbryoTransfer ? service.Day : null,
                First = service.DayZero,
                Last = service.DayZero,
            };
            cow.Attempts.Add(attempt);
        }

        ComeAgain(cow, service.Day, attempt);
        cow.Row = 0;
        attempt.AfterDoubleRecheck = cow.DoubleRecheck;
    }

    private static void Expose(OracleCow cow, Exposure exposure)
    {
        // Last day on the calving day: not after the calving, so it does not count (T4).
        if (cow.Calved is { } calved && exposure.Until is { } until && until <= calved)
            return;
        var attempt = new Attempt { IsExposure = true, IsInsemination = false, First = exposure.Day, Last = exposure.Until };
        cow.Attempts.Add(attempt);
        ComeAgain(cow, exposure.Day, attempt);
    }

    private static void Treat(OracleCow cow, Treatment treatment)
    {
        if (treatment is { Agent: Agent.Pgf, NotDone: false } && cow.Underneath is not ("open" or "not-served"))
            cow.Troubles.Add(new Trouble('g', treatment.Day));
    }
}
