using ReproLink.Calendar.Facts;

namespace ReproLink.Web.Work;

/// <summary>Facts that were recorded by ticking a line of work.</summary>
public static class Ticks
{
    /// <summary>How their ids begin: by it a tick is told from what a person or a program said otherwise.</summary>
    public const string Prefix = "tick ";

    /// <summary>Whether a fact came from a tick, and may be undone where it was ticked.</summary>
    public static bool Is(Fact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        return fact.SourceId.StartsWith(Prefix, StringComparison.Ordinal);
    }
}
