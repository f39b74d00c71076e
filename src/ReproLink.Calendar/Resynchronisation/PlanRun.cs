using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>A plan followed from its first start through lapses and restarts to the moment looked at (rules S1, S2, S7).</summary>
internal sealed class PlanRun
{
    // A plan that lapsed for two years on end is nobody's plan any more.
    private const int MostRestarts = 120;

    private readonly PlanMoment _moment;
    private readonly Protocol _protocol;
    private readonly ProgrammeVersion _version;
    private readonly Day _opens;
    private readonly Func<Day, Day?> _nextStart;
    private readonly RecordedActs _acts;

    private PlanRun(PlanMoment moment, Protocol protocol, Anchor anchor, ProgrammeVersion version, Day opens, Func<Day, Day?> nextStart)
    {
        _moment = moment;
        _protocol = protocol;
        Anchor = anchor;
        _version = version;
        _opens = opens;
        _nextStart = nextStart;
        _acts = new RecordedActs(moment.State.Treatments.Where(t => t.Day >= anchor.Day), protocol, moment.Rules.Zone);
    }

    /// <summary>What it hangs on.</summary>
    public Anchor Anchor { get; }

    /// <summary>The plans that lapsed and the one that stands.</summary>
    public IEnumerable<StepPlan> All => Plan is { } plan ? Lapsed.Append(plan) : Lapsed;

    /// <summary>The plan that stands; null = none until a decision.</summary>
    public StepPlan? Plan { get; private set; }

    /// <summary>Plans that lapsed, with what was done of them.</summary>
    public List<StepPlan> Lapsed { get; } = [];

    public static PlanRun? AfterService(PlanMoment moment, ChosenProtocol chosen, Anchor anchor)
    {
        var (state, rules) = (moment.State, moment.Rules);
        var version = rules.On(state.GoverningDay(moment.AsOf));
        var opens = Opens(state, version.Programme.Test, anchor);
        var run = new PlanRun(moment, chosen.Protocol, anchor, version, opens, rules.FirstStartDay);
        if (FirstStart.FindBeforeResult(state, rules, chosen, anchor.Day, opens) is { } first)
        {
            run.Follow(first.Start, first.PinnedBy is null ? first.Slips : 0);
        }
        else if (run.AtResult() is { } start)
        {
            run.Follow(start, 0);
        }

        return run;
    }

    // The waiting period binds the insemination: the start is the first of its own start weekdays from which the
    // insemination falls on or after its end.
    public static PlanRun? FirstService(PlanMoment moment, Calving calving)
    {
        var version = moment.Rules.On(calving.Day);
        if (version.Programme.FirstService is not { } choice || moment.Rules.FindProtocol(choice.Protocol) is not { } protocol)
        {
            return null;
        }

        var run = new PlanRun(moment, protocol, new Anchor(calving.Id, calving.Day, null), version, calving.Day,
            from => NextOf(moment.Rules, choice, from));
        if (FirstServiceStart(moment.Rules, choice, protocol, calving.Day) is { } start)
        {
            run.Follow(start, 0);
        }

        return run;
    }

    /// <summary>The first of first service's own start weekdays on or after calving + waiting period − length of the protocol.</summary>
    public static Day? FirstServiceStart(HerdRules rules, FirstServiceChoice choice, Protocol protocol, Day calving)
    {
        var length = protocol.Steps.Max(protocol.HoursFromStart) / 24;
        return NextOf(rules, choice, calving + choice.VoluntaryWaitingPeriodDays - length);
    }

    private static Day? NextOf(HerdRules rules, FirstServiceChoice choice, Day from)
    {
        for (var day = from; day <= from + HerdRules.Horizon; day += 1)
        {
            if (choice.StartDays.Contains(day.Weekday) && !rules.On(day).Programme.Week.ClosedDates.Contains(day))
            {
                return day;
            }
        }

        return null;
    }

    /// <summary>First day on which a sample decides the anchor: T1 or T4, T2 and T3 together.</summary>
    private static Day Opens(AnimalState state, TestRules test, Anchor anchor)
    {
        var opens = anchor.Day + test.MinDaysPostService;
        if (state.LastCalving is { } calving)
        {
            opens = Day.Max(opens, calving.Day + test.MinDaysInMilk);
        }

        foreach (var loss in state.Losses)
        {
            // A loss after the service is news of that service, not residue before it.
            if (loss.Fact.Day <= anchor.Day)
            {
                opens = Day.Max(opens, loss.Fact.Day + loss.ClearanceDays(test));
            }
        }

        return opens;
    }

    private void Follow(Day start, int slips)
    {
        for (var restarts = 0; restarts <= MostRestarts; restarts++)
        {
            var walk = new PlanWalk(_moment, _protocol, _version, _opens, _acts, start);
            var (steps, lapsed) = walk.Run();
            var plan = new StepPlan(_protocol, Anchor.Fact, Anchor.Day, start, steps) { Slips = slips, Restarts = restarts, Reasons = Why(slips, restarts, start) };
            if (lapsed is not { } at)
            {
                Plan = plan;
                return;
            }

            Lapsed.Add(plan with { Steps = [.. steps.Select(Fallen)] });
            if (Restart(at) is not { } next)
            {
                return;
            }

            start = next;
        }
    }

    // What was still to be done when the plan lapsed is done no more; the insert keeps its own account.
    private static PlannedStep Fallen(PlannedStep step) =>
        step.State is StepState.Done or StepState.Missed || step.Step.Kind == StepKind.InsertOut
            ? step
            : step with { State = StepState.Cancelled, Clause = null, Reasons = [Reason.Of("S7", "the plan lapsed")] };

    private List<Reason> Why(int slips, int restarts, Day start)
    {
        if (restarts > 0)
        {
            return [new Reason("S7", start, "started again after a step was missed", [Anchor.Fact])];
        }

        return slips > 0
            ? [new Reason("S2", start, $"slipped {slips} start day{(slips > 1 ? "s" : "")}: no draw day in time for an earlier start", [Anchor.Fact])]
            : [];
    }

    // The open that failed what she was served by stays the start of her plan, whatever is found afterwards: a later answer
    // holds or cancels the steps, it does not make them unhappen.
    private Day? AtResult() => Anchor.FailedBy is { } open ? StartWhen(LocalKnown(open), MayStart) : null;

    private static bool MayStart(AnimalState state, Day start, Day drawsFrom) =>
        state is { Underneath: AnimalStatus.Open, DoNotBreed: null, Departure: null };

    private LocalDateTime LocalKnown(FactId open) => KnownAt(open).InZone(_moment.Rules.Zone).LocalDateTime;

    private Instant KnownAt(FactId open)
    {
        var fact = _moment.State.History.Facts.First(f => f.Id == open);
        var known = fact switch
        {
            TestResult result => result.Known,
            Examination examination => examination.Known,
            _ => null,
        };
        return known ?? StepTimes.Resolve(StepTimes.At(fact.Day, fact.Time ?? LocalTime.Midnight), _moment.Rules.Zone);
    }

    // The first start day whose session begins after a moment.
    private Day? StartAfter(LocalDateTime moment)
    {
        for (var day = _nextStart(Day.From(moment.Date)); day is { } at; day = _nextStart(at + 1))
        {
            if (StartAt(at) > moment)
            {
                return at;
            }
        }

        return null;
    }

    private LocalDateTime StartAt(Day day) => FirstStart.StartAt(_moment.Rules, _protocol, day);

    // S7: only when she is open, or awaiting a test and a draw can still serve it; never into the past of a programme that
    // was saved later.
    private Day? Restart(LocalDateTime lapsed)
    {
        var notBefore = _version.Number == 0 ? lapsed : Later(lapsed, _version.Recorded.InZone(_moment.Rules.Zone).Date.AtMidnight());
        return StartWhen(notBefore, MayRestart);
    }

    // The first start day after a moment on which she may start. Days past are judged as she was then.
    private Day? StartWhen(LocalDateTime after, Func<AnimalState, Day, Day, bool> may)
    {
        for (var day = StartAfter(after); day is { } at; day = _nextStart(at + 1))
        {
            var start = StartAt(at);
            var past = start <= _moment.Now;
            var state = past ? _moment.Before(start) : _moment.State;
            if (may(state, at, past ? Day.From(after.Date) : _moment.AsOf))
            {
                return at;
            }

            // Nothing changes her by itself any more: the plan waits for the decision.
            if (!past && (state.Underneath != AnimalStatus.AwaitingTest || at > _moment.AsOf + 28))
            {
                return null;
            }
        }

        return null;
    }

    private static LocalDateTime Later(LocalDateTime a, LocalDateTime b) => a > b ? a : b;

    private bool MayRestart(AnimalState state, Day start, Day drawsFrom)
    {
        if (state.DoNotBreed is not null || state.Departure is not null)
        {
            return false;
        }

        if (state.Underneath is AnimalStatus.Open or AnimalStatus.NotServed)
        {
            return true;
        }

        if (state.Underneath != AnimalStatus.AwaitingTest || _protocol is not { FirstGated: { } gated, MayStartBeforeResult: true })
        {
            return false;
        }

        var step = StepTimes.Planned(_protocol, gated, StartAt(start), _moment.Rules.Zone);
        return _moment.Rules.Laboratory.LastUsefulDraw(Day.Max(_opens, drawsFrom), Day.From(step.Date), step.TimeOfDay) is not null;
    }
}
