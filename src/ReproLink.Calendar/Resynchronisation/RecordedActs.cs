using NodaTime;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>Recorded treatments and inseminations, each ticking off at most one step.</summary>
internal sealed class RecordedActs(IEnumerable<Fact> acts, DateTimeZone zone)
{
    private readonly List<Fact> _acts = [.. acts];

    /// <summary>The act that does a step, or reports it not done; taken out, so that it ticks no other.</summary>
    /// <param name="step">The step.</param>
    /// <param name="at">Its planned time.</param>
    public Fact? Take(ProtocolStep step, LocalDateTime at)
    {
        var planned = StepTimes.Resolve(at, zone);
        var from = planned - Duration.FromHours(step.EarlyHours);
        var to = planned + Duration.FromHours(step.LateHours);
        for (var i = 0; i < _acts.Count; i++)
        {
            if (Fits(_acts[i], step.Kind) && Overlaps(_acts[i], from, to))
            {
                var act = _acts[i];
                _acts.RemoveAt(i);
                return act;
            }
        }

        return null;
    }

    /// <summary>An agent given on a drug step's day that does no step of the protocol on that day; null = none.</summary>
    public Treatment? OtherAgentOn(LocalDateTime at, ProtocolStep step, Protocol protocol)
    {
        if (step.Kind is not (StepKind.Gnrh or StepKind.Pgf or StepKind.InsertIn))
        {
            return null;
        }

        foreach (var act in _acts)
        {
            if (act is Treatment { NotDone: false } treatment && treatment.Agent != Agent.InsertOut && treatment.Day.Date == at.Date
                && !protocol.Steps.Any(s => FirstStart.Is(treatment.Agent, s.Kind) && IsSameDay(protocol, s, step)))
            {
                return treatment;
            }
        }

        return null;
    }

    private static bool IsSameDay(Protocol protocol, ProtocolStep a, ProtocolStep b) =>
        Math.Abs(protocol.HoursFromStart(a) - protocol.HoursFromStart(b)) < 24;

    private static bool Fits(Fact act, StepKind step) => act switch
    {
        Treatment treatment => FirstStart.Is(treatment.Agent, step),
        Insemination => step == StepKind.Inseminate,
        _ => false,
    };

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
