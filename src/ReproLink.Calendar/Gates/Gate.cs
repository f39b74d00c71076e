using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Gates;

/// <summary>
/// The gate in front of prostaglandin and protocol inseminations (rule S4): one small pure function, used by everything that
/// can print such a line. There is no second way to one.
/// </summary>
public static class Gate
{
    /// <summary>S4: days from arrival to the first <c>open</c> that makes her history known.</summary>
    public const int AfterArrivalDays = 28;

    /// <summary>The first clause that holds; null = the gate is open, but for the approval (S8).</summary>
    /// <param name="inputs">What the gate looks at.</param>
    public static GateClause? Closed(GateInputs inputs)
    {
        if (inputs.HasHeldResult)
        {
            return GateClause.HeldResult;
        }

        if (inputs.HasConflict)
        {
            return GateClause.Conflict;
        }

        if (inputs.HasRecheck)
        {
            return GateClause.Recheck;
        }

        if (!inputs.IsHistoryKnown)
        {
            return GateClause.HistoryUnknown;
        }

        if (inputs is { IsServed: true, HasOpen: true, IsEverythingFailed: false, IsPregnant: false })
        {
            return GateClause.NotCovered;
        }

        return inputs.IsPregnant || inputs.IsPresumedPregnant || (inputs.IsServed && !inputs.IsEverythingFailed)
            ? GateClause.NotOpen
            : null;
    }

    /// <summary>The first clause that holds for an animal as folded for the step's time.</summary>
    public static GateClause? Closed(AnimalState state) => Closed(Of(state));

    /// <summary>The first clause that holds, the approval of the version that governs her on that day among them (S8).</summary>
    public static GateClause? Closed(AnimalState state, HerdRules rules)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(rules);
        return Closed(state) ?? (rules.On(state.GoverningDay(state.AsOf)).IsApprovedOn(state.AsOf) ? null : GateClause.AwaitingApproval);
    }

    /// <summary>What the gate looks at in an animal.</summary>
    public static GateInputs Of(AnimalState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        var served = state.Services.Count > 0 || state.Exposures.Count > 0;
        return new GateInputs
        {
            HasHeldResult = state.History.Held.Count > 0,
            HasConflict = state.Conflicts.Count > 0,
            HasRecheck = state.Recheck is not null,
            IsHistoryKnown = served ? !ArrivedAfterOpen(state) : IsKnownUnserved(state),
            IsServed = served,
            HasOpen = state.LastOpen is not null,
            IsEverythingFailed = served && !state.HasCandidate,
            IsPregnant = state.Pregnancy is not null,
            IsPresumedPregnant = state.Presumed is not null,
        };
    }

    // Where she was between the open and the arrival nobody here knows; she may have met a bull.
    private static bool ArrivedAfterOpen(AnimalState state) =>
        state is { LastOpen: { } open, LastArrival: { } arrival } && !state.HasCandidate && open.Sample < arrival.Day;

    // A calving not before her latest arrival; or a heifer with a card and no arrival; or a valid open at least 28 days
    // after arrival, by examination if no arrival is on record.
    private static bool IsKnownUnserved(AnimalState state)
    {
        if (state.LastCalving is { } calving && (state.LastArrival is not { } came || calving.Day >= came.Day))
        {
            return true;
        }

        if (state is { IsHeifer: true, Card: not null, LastArrival: null })
        {
            return true;
        }

        return state.LastOpen is { } open
            && (state.LastArrival is { } arrival ? open.Sample - arrival.Day >= AfterArrivalDays : open.ByExamination);
    }
}

/// <summary>What the gate looks at. Each is a plain yes or no, so that the truth table can be written down and tested whole.</summary>
public readonly record struct GateInputs
{
    /// <summary>A held result names her or may mean her.</summary>
    public bool HasHeldResult { get; init; }

    /// <summary>A conflict of T7 is open.</summary>
    public bool HasConflict { get; init; }

    /// <summary>An inconclusive result is not decided yet.</summary>
    public bool HasRecheck { get; init; }

    /// <summary>Not served: her history is known; served: her last open is not older than her arrival.</summary>
    public bool IsHistoryKnown { get; init; }

    /// <summary>A service or exposure counts for the lactation.</summary>
    public bool IsServed { get; init; }

    /// <summary>A valid open is on record in the lactation.</summary>
    public bool HasOpen { get; init; }

    /// <summary>Every service and exposure failed by a valid open.</summary>
    public bool IsEverythingFailed { get; init; }

    /// <summary>A pregnancy stands.</summary>
    public bool IsPregnant { get; init; }

    /// <summary>A too-early <c>pregnant</c> still closes the gate.</summary>
    public bool IsPresumedPregnant { get; init; }
}
