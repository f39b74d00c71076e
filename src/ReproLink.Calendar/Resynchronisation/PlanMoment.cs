using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>The moment a plan is looked at: a day, what is known, and the wall clock of the herd.</summary>
internal sealed class PlanMoment
{
    private readonly Dictionary<LocalDateTime, AnimalState> _folded = [];

    public PlanMoment(AnimalState state, HerdRules rules, Day asOf, Instant knownAt)
    {
        State = state;
        Rules = rules;
        AsOf = asOf;
        KnownAt = knownAt;
        var local = knownAt.InZone(rules.Zone).LocalDateTime;
        // An earlier day is looked at as it ended, a later one as it begins.
        Now = Day.From(local.Date).CompareTo(asOf) switch
        {
            0 => local,
            > 0 => (asOf + 1).Date.AtMidnight().PlusNanoseconds(-1),
            _ => asOf.Date.AtMidnight(),
        };
    }

    public AnimalState State { get; }

    public HerdRules Rules { get; }

    public Day AsOf { get; }

    public Instant KnownAt { get; }

    /// <summary>The herd's wall clock.</summary>
    public LocalDateTime Now { get; }

    /// <summary>The animal as a past step found her. Nothing changes between two facts, so few folds serve many steps.</summary>
    public AnimalState Before(LocalDateTime step)
    {
        if (!_folded.TryGetValue(step, out var state))
        {
            var at = StepTimes.Resolve(step, Rules.Zone);
            // A result that was held only later closed no gate then.
            var history = State.History.Held.Count == 0
                ? State.History
                : State.History with { Held = [.. State.History.Held.Where(h => h.Received < at)] };
            state = HistoryFold.FoldBefore(history, Rules, step, at, KnownAt);
            _folded.Add(step, state);
        }

        return state;
    }
}
