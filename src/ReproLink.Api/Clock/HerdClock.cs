using NodaTime;

namespace ReproLink.Api.Clock;

/// <summary>
/// The one clock of the service. In trials it can be set: it then stands still until it is moved, and is never moved back.
/// </summary>
public sealed class HerdClock : IClock
{
    private readonly Lock _lock = new();
    private Instant? _set;

    /// <summary>A clock.</summary>
    /// <param name="start">Where it stands; absent = it runs with the system's clock.</param>
    /// <param name="maySet">Whether this is a trial, in which the clock may be set.</param>
    public HerdClock(Instant? start, bool maySet)
    {
        if (start is not null && !maySet)
        {
            throw new InvalidOperationException("The clock can be set in the Testing environment and in the demo only.");
        }

        _set = start;
        MaySet = maySet;
    }

    /// <summary>Whether it may be set.</summary>
    public bool MaySet { get; }

    /// <summary>Whether it stands where somebody set it.</summary>
    public bool IsSet
    {
        get
        {
            lock (_lock)
            {
                return _set is not null;
            }
        }
    }

    /// <inheritdoc/>
    public Instant GetCurrentInstant()
    {
        lock (_lock)
        {
            return _set ?? SystemClock.Instance.GetCurrentInstant();
        }
    }

    /// <summary>Moves it.</summary>
    /// <param name="now">Where to.</param>
    /// <param name="mayStartAnywhere">Nothing is recorded yet, so a clock not yet set may start at any instant.</param>
    /// <returns>False when that would be backwards: nothing is changed then.</returns>
    public bool TryMove(Instant now, bool mayStartAnywhere)
    {
        lock (_lock)
        {
            var starts = _set is null && mayStartAnywhere;
            if (!MaySet || (!starts && now < (_set ?? SystemClock.Instance.GetCurrentInstant())))
            {
                return false;
            }

            _set = now;
            return true;
        }
    }
}
