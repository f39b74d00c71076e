using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>W2 with S1 and S2: the last useful day of a first test.</summary>
internal static class NaiveCloses
{
    private const int Candidates = 4;

    public static Day FirstTest(OracleCow cow, HerdRules rules, Day on, Day opens, Func<string?, Protocol?> find)
    {
        var dayZero = cow.NotFailed.Max(a => a.Last ?? on);
        var programme = NaiveRules.Governing(cow, rules, on).Programme;
        var choice = programme.Resynchronisation;
        var protocol = find(cow.Heifer ? choice.ProtocolHeifer : choice.Protocol);
        Day? last = null;
        if (protocol?.FirstGated is not null)
        {
            last = (protocol.Start?.Rule ?? choice.Start) == StartRule.AtResult
                ? AtResult(rules, opens, protocol)
                : BeforeResult(cow, rules, dayZero + (protocol.Start?.Day ?? choice.StartDay), opens, protocol);
        }

        return Day.Max(opens, last ?? dayZero + programme.Test.OverdueDaysPostService);
    }

    private static Day? BeforeResult(OracleCow cow, HerdRules rules, Day earliest, Day opens, Protocol protocol)
    {
        if (!protocol.MayStartBeforeResult)
            return null;
        var starts = new List<Day>();
        while (starts.Count < Candidates && NaiveLaboratory.First(
            starts.Count == 0 ? earliest : starts[^1] + 1, d => NaiveLaboratory.IsStartDay(rules, d)) is { } next)
        {
            starts.Add(next);
        }

        var feasible = starts.Where(s => LastDraw(rules, opens, TimeOf(rules, SessionOf(rules, s, protocol), protocol, protocol.FirstGated!)) is not null)
            .Select(s => (Day?)s).FirstOrDefault();
        if (Pinned(cow, rules, starts, protocol, feasible is { } s && IsRunning(cow, rules, s, protocol) ? s : null) is { } pinned)
            return LastDraw(rules, opens, Kept(rules, pinned.Start, pinned.Given, protocol));
        return starts.Select(s => LastDraw(rules, opens, TimeOf(rules, SessionOf(rules, s, protocol), protocol, protocol.FirstGated!)))
            .FirstOrDefault(d => d is not null);
    }

    // S2: a recorded first step within tolerance pins the start to the nearest candidate, of two the earlier.
    private static (Day Start, Instant Given)? Pinned(OracleCow cow, HerdRules rules, List<Day> starts, Protocol protocol, Day? running)
    {
        var agent = protocol.Steps[0].Kind.ToString();
        foreach (var treatment in cow.Counting.OfType<Treatment>().Where(t => !t.NotDone && t.Agent.ToString() == agent))
        {
            if (running is { } begun && IsOfLaterStep(rules, begun, protocol, treatment))
                continue;
            var instant = NaiveLaboratory.At(rules, treatment.Day, treatment.Time ?? LocalTime.Midnight);
            var near = starts.OrderBy(s => Hours(instant, s)).ThenBy(s => s.Number).Where(s => Hours(instant, s) <= 72).ToList();
            // Without a time it was done in the session of its day.
            if (near.Count > 0)
                return (near[0], NaiveLaboratory.At(rules, treatment.Day, treatment.Time ?? SessionTime(rules, near[0], protocol)));
        }

        return null;

        double Hours(Instant instant, Day start) => Math.Abs((instant - SessionOf(rules, start, protocol)).TotalHours);
    }

    // S7: approved at its time and taken as done: it has begun, and a dose of a later step's day begins it no second time.
    private static bool IsRunning(OracleCow cow, HerdRules rules, Day start, Protocol protocol)
    {
        var session = SessionOf(rules, start, protocol);
        return rules.On(start).Programme.Recording == Recording.Assumed
            && NaiveRules.Governing(cow, rules, start).Approvals.Any(a => a.Recorded <= session && (a.Expires is not { } last || start <= last));
    }

    private static bool IsOfLaterStep(HerdRules rules, Day start, Protocol protocol, Treatment treatment)
    {
        var given = NaiveLaboratory.At(rules, treatment.Day, treatment.Time ?? LocalTime.Midnight);
        return protocol.Steps.Skip(1)
            .Where(s => s.Kind is StepKind.Gnrh or StepKind.Pgf or StepKind.InsertIn)
            .Select(s => (Step: s, At: TimeOf(rules, SessionOf(rules, start, protocol), protocol, s)))
            .Where(s => rules.DayOf(s.At) > start)
            .Any(s => rules.DayOf(s.At) == treatment.Day
                || (s.Step.Kind.ToString() == treatment.Agent.ToString()
                    && (given - s.At).TotalHours >= -s.Step.EarlyHours && (given - s.At).TotalHours <= s.Step.LateHours));
    }

    private static Instant SessionOf(HerdRules rules, Day start, Protocol protocol) =>
        NaiveLaboratory.At(rules, start, SessionTime(rules, start, protocol));

    private static LocalTime SessionTime(HerdRules rules, Day start, Protocol protocol)
    {
        var week = rules.On(start).Programme.Week;
        return protocol.StartSession == Session.Afternoon ? week.Afternoon : week.Morning;
    }

    // S3: the planned time stays while the interval from the recorded first step is within tolerance, else it hangs on that.
    private static Instant Kept(HerdRules rules, Day start, Instant given, Protocol protocol)
    {
        var step = protocol.FirstGated!;
        var planned = TimeOf(rules, SessionOf(rules, start, protocol), protocol, step);
        var hung = TimeOf(rules, given, protocol, step);
        var late = (planned - hung).TotalHours;
        return late >= -step.EarlyHours && late <= step.LateHours ? planned : hung;
    }

    private static Day? LastDraw(HerdRules rules, Day opens, Instant step)
    {
        var stepDay = rules.DayOf(step);
        Day? last = null;
        for (var day = opens; day <= stepDay; day += 1)
        {
            if (NaiveLaboratory.IsSamplingDay(rules, day) && Serves(rules, day, step, stepDay))
                last = day;
        }

        return last;
    }

    // L2: an on-farm result serves every step of its day.
    private static bool Serves(HerdRules rules, Day drawn, Instant step, Day stepDay) =>
        rules.On(drawn).Programme.Laboratory.Kind == LaboratoryKind.OnFarm
            ? drawn <= stepDay
            : NaiveLaboratory.Report(rules, drawn) is { } report && report < step;

    // S3: days keep the wall clock, hours are elapsed.
    private static Instant TimeOf(HerdRules rules, Instant start, Protocol protocol, ProtocolStep step)
    {
        var from = step.Anchor is null
            ? start
            : TimeOf(rules, start, protocol, protocol.Steps.Single(s => s.Id == step.Anchor));
        if (step.Hours is { } hours)
            return from + Duration.FromHours(hours);
        return NaiveLaboratory.At(rules, rules.DayOf(from) + (step.Days ?? 0), from.InZone(rules.Zone).TimeOfDay);
    }

    private static Day? AtResult(HerdRules rules, Day opens, Protocol protocol)
    {
        if (NaiveLaboratory.First(opens, d => NaiveLaboratory.IsSamplingDay(rules, d)) is not { } draw
            || NaiveLaboratory.Report(rules, draw) is not { } report)
        {
            return null;
        }

        var start = NaiveLaboratory.First(
            rules.DayOf(report), d => NaiveLaboratory.IsStartDay(rules, d) && Serves(rules, draw, SessionOf(rules, d, protocol), d));
        if (start is not { } begins)
            return null;
        var session = SessionOf(rules, begins, protocol);
        return Enumerable.Range(0, Math.Max(0, begins - opens + 1)).Select(n => opens + n)
            .Where(d => NaiveLaboratory.IsSamplingDay(rules, d) && Serves(rules, d, session, begins))
            .Select(d => (Day?)d).LastOrDefault();
    }
}
