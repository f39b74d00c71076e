namespace ReproLink.Calendar.Rounds;

/// <summary>Where a round stands, derived from its tubes.</summary>
public enum RoundState
{
    /// <summary>Nothing happened yet.</summary>
    Planned = 1,

    /// <summary>Some tubes are settled, others still to be drawn.</summary>
    Drawing = 2,

    /// <summary>Every tube is settled; some wait to leave.</summary>
    Drawn = 3,

    /// <summary>Every tube with blood has left.</summary>
    Dispatched = 4,

    /// <summary>Every tube with blood is answered.</summary>
    Answered = 5,
}

/// <summary>Derives where a round stands.</summary>
public static class RoundStates
{
    /// <summary>The state of a round.</summary>
    /// <param name="tubes">Its tubes, and of each whether its result is on record.</param>
    public static RoundState Of(IReadOnlyCollection<(TubeStanding Tube, bool Answered)> tubes)
    {
        ArgumentNullException.ThrowIfNull(tubes);
        var planned = tubes.Count(t => t.Tube.State == TubeState.Planned);
        if (planned == tubes.Count)
        {
            return RoundState.Planned;
        }

        if (planned > 0)
        {
            return RoundState.Drawing;
        }

        var full = tubes.Where(t => t.Tube.HasBlood).ToList();
        return full.TrueForAll(t => t.Answered) ? RoundState.Answered
            : full.TrueForAll(t => t.Answered || t.Tube.Dispatched is not null) ? RoundState.Dispatched
            : RoundState.Drawn;
    }
}
