using NodaTime;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>Recorded treatments and inseminations, each ticking off at most one step.</summary>
internal sealed class RecordedActs(IEnumerable<Fact> acts, Protocol protocol, DateTimeZone zone)
{
    private readonly List<Fact> _acts = [.. acts];

    /// <summary>The act that does a step, or reports it not done; taken out, so that it ticks no other.</summary>
    /// <param name="step">The step.</param>
    /// <param name="at">Its planned time.</param>
    public Fact? Take(ProtocolStep step, LocalDateTime at)
    {
        Fact? found = null;
        foreach (var act in _acts)
        {
            // What was done outweighs an earlier report that it was not (S7: a recorded act inside the tolerance wins).
            if (Fits(act, step.Kind) && IsWithin(act, step, at) && !IsOfLaterStep(act, step, at) && (found is null || (IsNotDone(found) && !IsNotDone(act))))
            {
                found = act;
            }
        }

        if (found is not null)
        {
            _acts.Remove(found);
        }

        return found;
    }

    /// <summary>The removal of an insert, however early or late: what hangs on it hangs on when it really came out.</summary>
    /// <param name="placed">When it was placed.</param>
    public Fact? TakeRemoval(LocalDateTime placed)
    {
        var found = _acts.Find(a => a is Treatment { Agent: Agent.InsertOut, NotDone: false } && a.Day.Date > placed.Date);
        if (found is not null)
        {
            _acts.Remove(found);
        }

        return found;
    }

    /// <summary>An agent given on a drug step's day that does no step of the protocol on that day; null = none.</summary>
    public Treatment? OtherAgentOn(LocalDateTime at, ProtocolStep step)
    {
        if (step.Kind is not (StepKind.Gnrh or StepKind.Pgf or StepKind.InsertIn))
        {
            return null;
        }

        foreach (var act in _acts)
        {
            if (act is Treatment { NotDone: false } treatment && treatment.Agent != Agent.InsertOut && treatment.Day.Date == at.Date
                && !protocol.Steps.Any(s => FirstStart.Is(treatment.Agent, s.Kind) && IsSameDay(s, step)))
            {
                return treatment;
            }
        }

        return null;
    }

    private bool IsSameDay(ProtocolStep a, ProtocolStep b) => Math.Abs(protocol.HoursFromStart(a) - protocol.HoursFromStart(b)) < 24;

    private static bool IsNotDone(Fact act) => act is Treatment { NotDone: true };

    private static bool Fits(Fact act, StepKind step) => act switch
    {
        Treatment treatment => FirstStart.Is(treatment.Agent, step),
        Insemination => step == StepKind.Inseminate,
        _ => false,
    };

    private bool IsWithin(Fact act, ProtocolStep step, LocalDateTime at)
    {
        var planned = StepTimes.Resolve(at, zone);
        return Overlaps(act, planned - Duration.FromHours(step.EarlyHours), planned + Duration.FromHours(step.LateHours));
    }

    // Of two doses of one agent a day apart the tolerances overlap: a single record nearer to the second is the second's,
    // unless the second has one of its own.
    private bool IsOfLaterStep(Fact act, ProtocolStep step, LocalDateTime at)
    {
        foreach (var later in protocol.Steps)
        {
            var hours = protocol.HoursFromStart(later) - protocol.HoursFromStart(step);
            if (later.Kind != step.Kind || hours <= 0)
            {
                continue;
            }

            var due = at.PlusHours(hours);
            // The later step as it would fall if this record were the earlier one's.
            var hung = StepTimes.At(act.Day, act.Time ?? at.TimeOfDay).PlusHours(hours);
            if (IsWithin(act, later, due) && Away(act, due) < Away(act, at)
                && !_acts.Exists(other => other != act && Fits(other, later.Kind) && !IsNotDone(other) && (IsWithin(other, later, due) || IsWithin(other, later, hung))))
            {
                return true;
            }
        }

        return false;
    }

    private static long Away(Fact act, LocalDateTime at) =>
        Math.Abs(Period.Between(at, StepTimes.At(act.Day, act.Time ?? at.TimeOfDay), PeriodUnits.Minutes).Minutes);

    // A record without a time may mean any time of its day: a dose that was given must never be asked for again.
    private bool Overlaps(Fact act, Instant from, Instant to)
    {
        if (act.Time is { } time)
        {
            var at = StepTimes.Resolve(StepTimes.At(act.Day, time), zone);
            return at >= from && at <= to;
        }

        var starts = zone.AtStartOfDay(act.Day.Date).ToInstant();
        var ends = zone.AtStartOfDay((act.Day + 1).Date).ToInstant();
        return ends > from && starts <= to;
    }
}
