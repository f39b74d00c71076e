using NodaTime;
using ReproLink.Calendar.Dates;

namespace ReproLink.Calendar.Rounds;

/// <summary>Something that happened to a tube. Events are appended, never changed; the last word on a tube's state counts.</summary>
/// <param name="Recorded">When it was recorded.</param>
public abstract record TubeEvent(Instant Recorded);

/// <summary>Somebody said what became of it.</summary>
/// <param name="Recorded">When it was recorded.</param>
/// <param name="State">What became of it.</param>
/// <param name="Day">The day.</param>
public sealed record TubeMarked(Instant Recorded, TubeState State, Day Day) : TubeEvent(Recorded)
{
    /// <summary>Local time.</summary>
    public LocalTime? Time { get; init; }

    /// <summary>By whom.</summary>
    public string? By { get; init; }

    /// <summary>Why nothing was drawn.</summary>
    public NotDrawnReason? Reason { get; init; }
}

/// <summary>It left the farm.</summary>
/// <param name="Recorded">When it was recorded.</param>
/// <param name="Dispatch">Number of the dispatch in its round.</param>
/// <param name="Day">The local day it left.</param>
public sealed record TubeDispatched(Instant Recorded, int Dispatch, Day Day) : TubeEvent(Recorded);

/// <summary>Where a tube stands, derived from what happened to it.</summary>
public sealed record TubeStanding
{
    /// <summary>A tube to which nothing happened.</summary>
    public static readonly TubeStanding Untouched = new();

    /// <summary>What is known of it.</summary>
    public TubeState State { get; init; } = TubeState.Planned;

    /// <summary>The word that counts; absent = none.</summary>
    public TubeMarked? Marked { get; init; }

    /// <summary>When it left; absent = it did not.</summary>
    public TubeDispatched? Dispatched { get; init; }

    /// <summary>Whether there is blood in it that can be tested.</summary>
    public bool HasBlood => State is TubeState.Drawn or TubeState.Short;

    /// <summary>Whether it waits to leave.</summary>
    public bool WaitsForDispatch => HasBlood && Dispatched is null;

    /// <summary>Whether it left too late to decide anything (rule L3).</summary>
    public bool IsSpoiled => HasBlood && Dispatched is { } left && Marked is { } drawn && Storage.IsTooLong(drawn.Day, left.Day);

    /// <summary>What the events, in the order in which they were recorded, come to.</summary>
    public static TubeStanding Of(IEnumerable<TubeEvent> events)
    {
        ArgumentNullException.ThrowIfNull(events);
        return events.Aggregate(Untouched, static (standing, next) => next switch
        {
            TubeMarked marked => standing with { State = marked.State, Marked = marked },
            TubeDispatched left => standing with { Dispatched = left },
            _ => standing,
        });
    }

    /// <summary>
    /// Whether this may be said of it now. A tube that left was drawn: of it only its breaking can still be learnt.
    /// </summary>
    public bool MayBecome(TubeState state) => Dispatched is null || state == TubeState.Broken;
}
