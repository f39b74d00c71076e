using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>
/// Walks the steps of one start in order: dates each, ticks off what was recorded, and stops where a missed step makes the
/// plan lapse (rules S3, S7).
/// </summary>
internal sealed class PlanWalk(PlanMoment moment, Protocol protocol, ProgrammeVersion version, Day opens, RecordedActs acts, Day start)
{
    // Of every step so far: the time later steps hang on by plan, and the recorded time if there is one.
    private readonly Dictionary<string, (LocalDateTime Planned, LocalDateTime? Recorded)> _times = [];

    private readonly StepJudge _judge = new(moment, version, opens);

    /// <summary>The steps, and the moment at which the plan lapsed; null = it stands.</summary>
    public (List<PlannedStep> Steps, LocalDateTime? Lapsed) Run()
    {
        var steps = new List<PlannedStep>();
        LocalDateTime? lapsed = null;
        foreach (var step in protocol.Steps)
        {
            var at = TimeOf(step);
            // With a lapsed plan everything falls away but an insert that was due by then: it may be in her.
            if (lapsed is { } since && (at > since || step.Kind is not (StepKind.InsertIn or StepKind.InsertOut)))
            {
                _times[step.Id] = (at, null);
                continue;
            }

            var (planned, act) = Judge(step, at, steps);
            steps.Add(planned);
            if (lapsed is null && planned.State == StepState.Missed && step is { IfLate: IfLate.Lapse, Kind: not StepKind.InsertOut })
            {
                lapsed = act is null ? planned.LatestAt : TimeOf(act, at);
            }
        }

        return (steps, lapsed);
    }

    private (PlannedStep Planned, Fact? Act) Judge(ProtocolStep step, LocalDateTime at, List<PlannedStep> steps)
    {
        if (step == protocol.FirstGated)
        {
            _judge.FirstGatedAt = at;
        }

        var act = acts.Take(step, at) ?? (step.Kind == StepKind.InsertOut ? Removal(step) : null);
        // An insert lost or taken out early moves nothing; one taken out late moves what hangs on it.
        var moves = act is not (null or Treatment { NotDone: true }) && (step.Kind != StepKind.InsertOut || TimeOf(act, at) >= at);
        _times[step.Id] = (at, moves ? TimeOf(act!, at) : null);
        var planned = _judge.Judge(step, at, act, act is null ? acts.OtherAgentOn(at, step) : null);
        return (step.Kind == StepKind.InsertOut ? WithItsInsert(planned, steps) : planned, act);
    }

    private Fact? Removal(ProtocolStep step) =>
        step.Anchor is { } anchor ? acts.TakeRemoval(_times[anchor].Recorded ?? _times[anchor].Planned) : null;

    // What was never placed need not come out.
    private PlannedStep WithItsInsert(PlannedStep planned, List<PlannedStep> steps)
    {
        if (planned.State == StepState.Done || steps.Find(s => s.Step.Kind == StepKind.InsertIn) is not { } placed)
        {
            return planned;
        }

        return placed switch
        {
            { State: StepState.Cancelled } or { State: StepState.Missed, Recorded: not null } => planned with { State = StepState.Cancelled, Reasons = placed.Reasons },
            { State: StepState.AwaitingApproval } when placed.Day > moment.AsOf => planned with { State = StepState.AwaitingApproval, Clause = placed.Clause },
            _ => planned,
        };
    }

    // S3: the planned time stays as long as the interval from the recorded time is within the step's tolerance.
    private LocalDateTime TimeOf(ProtocolStep step)
    {
        if (step.Anchor is not { } anchor)
        {
            return StepTimes.After(FirstStart.StartAt(moment.Rules, protocol, start), step, moment.Rules.Zone);
        }

        var (planned, recorded) = _times[anchor];
        var natural = StepTimes.After(planned, step, moment.Rules.Zone);
        if (recorded is not { } done)
        {
            return natural;
        }

        var hung = StepTimes.After(done, step, moment.Rules.Zone);
        var late = (StepTimes.Resolve(natural, moment.Rules.Zone) - StepTimes.Resolve(hung, moment.Rules.Zone)).TotalHours;
        return late >= -step.EarlyHours && late <= step.LateHours ? natural : hung;
    }

    // A record without a time is taken at the planned wall clock of its day.
    private static LocalDateTime TimeOf(Fact act, LocalDateTime planned) => StepTimes.At(act.Day, act.Time ?? planned.TimeOfDay);
}
