using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>The decision a first test serves: the first step that needs its answer, at the first feasible start (rules S1, S2, W2).</summary>
/// <param name="Protocol">The protocol.</param>
/// <param name="Start">The start day.</param>
/// <param name="Step">The step that needs the answer.</param>
/// <param name="StepAt">Its wall-clock time.</param>
/// <param name="LastDraw">The last sampling day whose answer is back before it; null = none: a pinned start without a draw day serves nothing.</param>
/// <param name="Slips">By how many start weekdays it slipped.</param>
/// <param name="PinnedBy">The recorded first step that pins it; absent = not pinned.</param>
public sealed record FirstStart(
    Protocol Protocol, Day Start, ProtocolStep Step, LocalDateTime StepAt, Day? LastDraw, int Slips, FactId? PinnedBy)
{
    /// <summary>S2: a before-result start slips at most this many start weekdays.</summary>
    public const int MostSlips = 3;

    /// <summary>The first feasible start; null = no protocol for her class, or none feasible: the plan waits for <c>open</c>.</summary>
    /// <param name="state">The animal.</param>
    /// <param name="rules">The herd's rules.</param>
    /// <param name="dayZero">Day 0 of the latest service, or the last day with the bull.</param>
    /// <param name="opens">First day on which she may be bled.</param>
    public static FirstStart? Find(AnimalState state, HerdRules rules, Day dayZero, Day opens)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(rules);
        var chosen = ChosenProtocol.Of(state, rules, opens);
        return chosen is { BeforeResultDay: not null }
            ? FindBeforeResult(state, rules, chosen, dayZero, opens)
            : chosen is null ? null : AtResult(rules, chosen.Protocol, opens);
    }

    /// <summary>The pinned or first feasible before-result start; null = none: the plan waits for <c>open</c>.</summary>
    internal static FirstStart? FindBeforeResult(AnimalState state, HerdRules rules, ChosenProtocol chosen, Day dayZero, Day opens) =>
        chosen is { BeforeResultDay: { } startDay, Protocol.FirstGated: { } gated }
            ? BeforeResult(state, rules, chosen.Protocol, gated, dayZero + startDay, opens)
            : null;

    private static FirstStart? BeforeResult(AnimalState state, HerdRules rules, Protocol protocol, ProtocolStep gated, Day earliest, Day opens)
    {
        var starts = rules.Starts.Of(protocol, earliest, opens) ?? rules.Starts.Keep(protocol, earliest, opens, Candidates(rules, protocol, gated, earliest, opens));
        var feasible = Array.Find(starts, one => one.LastDraw is not null);
        return Pin(state, rules, starts, feasible, opens) ?? feasible;
    }

    private static FirstStart[] Candidates(HerdRules rules, Protocol protocol, ProtocolStep gated, Day earliest, Day opens)
    {
        var starts = new List<FirstStart>(MostSlips + 1);
        var from = earliest;
        for (var slips = 0; slips <= MostSlips && rules.FirstStartDay(from) is { } start; slips++)
        {
            var at = StepTimes.Planned(protocol, gated, StartAt(rules, protocol, start), rules.Zone);
            starts.Add(new FirstStart(protocol, start, gated, at, DrawFor(rules, opens, at), slips, null));
            from = start + 1;
        }

        return [.. starts];
    }

    /// <summary>The first start after the answer of the first sampling day from a day on; null = it never comes.</summary>
    internal static FirstStart? AtResult(HerdRules rules, Protocol protocol, Day opens)
    {
        if (rules.FirstSamplingDay(opens) is not { } draw || rules.Laboratory.Report(draw) is not { } report)
        {
            return null;
        }

        for (var start = rules.FirstStartDay(report.Day); start is { } day; start = rules.FirstStartDay(day + 1))
        {
            var at = StartAt(rules, protocol, day);
            if (report.IsBefore(day, at.TimeOfDay))
            {
                return new FirstStart(protocol, day, protocol.Steps[0], at, DrawFor(rules, opens, at), 0, null);
            }
        }

        return null;
    }

    // S2: a recorded first step within tolerance of a candidate start pins the start to the nearest one (tie: earlier).
    private static FirstStart? Pin(AnimalState state, HerdRules rules, FirstStart[] starts, FirstStart? feasible, Day opens)
    {
        foreach (var treatment in state.EachTreatment)
        {
            if (starts.Length == 0 || treatment.NotDone || !Is(treatment.Agent, starts[0].Protocol.Steps[0].Kind)
                || (feasible is not null && IsRunning(feasible, state, rules) && IsOfLaterStep(feasible, treatment, rules)))
            {
                continue;
            }

            FirstStart? nearest = null;
            var least = double.MaxValue;
            foreach (var start in starts)
            {
                var first = start.Protocol.Steps[0];
                var late = (StepTimes.Resolve(Recorded(treatment), rules.Zone) - StepTimes.Resolve(StartAt(rules, start.Protocol, start.Start), rules.Zone)).TotalHours;
                if (late >= -first.EarlyHours && late <= first.LateHours && Math.Abs(late) < least)
                {
                    (nearest, least) = (start, Math.Abs(late));
                }
            }

            if (nearest is not null)
            {
                return Hang(nearest, treatment, rules, opens);
            }
        }

        return null;
    }

    // S7: with assumed recording a first step that was released at its time counts as done: the plan has begun, nothing begins it again.
    private static bool IsRunning(FirstStart start, AnimalState state, HerdRules rules)
    {
        var released = StepTimes.Resolve(StartAt(rules, start.Protocol, start.Start), rules.Zone);
        return rules.On(start.Start).Programme.Recording == Recording.Assumed
            && rules.On(state.GoverningDay(start.Start)).IsApproved(start.Start, released);
    }

    // What is given on the day of a later drug step, or does one, belongs to the plan that is running: its second GnRH, or a
    // wrong agent (T7). It is no first step a week late.
    private static bool IsOfLaterStep(FirstStart start, Treatment treatment, HerdRules rules)
    {
        var zone = rules.Zone;
        var first = StartAt(rules, start.Protocol, start.Start);
        foreach (var step in start.Protocol.Steps.Skip(1))
        {
            var at = StepTimes.Planned(start.Protocol, step, first, zone);
            var late = (StepTimes.Resolve(Recorded(treatment), zone) - StepTimes.Resolve(at, zone)).TotalHours;
            if (at.Date > start.Start.Date && step.Kind is (StepKind.Gnrh or StepKind.Pgf or StepKind.InsertIn)
                && (at.Date == treatment.Day.Date || (Is(treatment.Agent, step.Kind) && late >= -step.EarlyHours && late <= step.LateHours)))
            {
                return true;
            }
        }

        return false;
    }

    // S3: the planned times stay as long as the interval from the recorded time is within tolerance; else it hangs on it.
    private static FirstStart Hang(FirstStart start, Treatment treatment, HerdRules rules, Day opens)
    {
        var planned = start.StepAt;
        var done = treatment.Time is { } time
            ? StepTimes.At(treatment.Day, time)
            : StepTimes.At(treatment.Day, StartAt(rules, start.Protocol, start.Start).TimeOfDay);
        var hung = StepTimes.Planned(start.Protocol, start.Step, done, rules.Zone);
        var early = (StepTimes.Resolve(planned, rules.Zone) - StepTimes.Resolve(hung, rules.Zone)).TotalHours;
        var at = early >= -start.Step.EarlyHours && early <= start.Step.LateHours ? planned : hung;
        return start with { StepAt = at, LastDraw = DrawFor(rules, opens, at), PinnedBy = treatment.Id };
    }

    private static LocalDateTime Recorded(Treatment treatment) => StepTimes.At(treatment.Day, treatment.Time ?? LocalTime.Midnight);

    private static Day? DrawFor(HerdRules rules, Day opens, LocalDateTime at) =>
        rules.Laboratory.LastUsefulDraw(opens, Day.From(at.Date), at.TimeOfDay);

    internal static LocalDateTime StartAt(HerdRules rules, Protocol protocol, Day day)
    {
        var week = rules.On(day).Programme.Week;
        return StepTimes.At(day, protocol.StartSession == Session.Afternoon ? week.Afternoon : week.Morning);
    }

    internal static bool Is(Agent agent, StepKind step) => (agent, step) switch
    {
        (Agent.Gnrh, StepKind.Gnrh) or (Agent.Pgf, StepKind.Pgf) => true,
        (Agent.InsertIn, StepKind.InsertIn) or (Agent.InsertOut, StepKind.InsertOut) => true,
        _ => false,
    };
}
