using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Figures.Histories;

/// <summary>What became of a service.</summary>
internal enum ServiceOutcome
{
    /// <summary>Not known: never counted as open.</summary>
    Unknown = 0,

    /// <summary>She became pregnant by it, whether or not she stayed so.</summary>
    Pregnant = 1,

    /// <summary>She did not.</summary>
    Open = 2,
}

/// <summary>A service of a lactation and what became of it.</summary>
/// <param name="lactation">The lactation.</param>
/// <param name="attempt">The service; inseminations at most 3 days apart are one.</param>
internal sealed class ServiceRecord(LactationRecord lactation, ServiceAttempt attempt)
{
    public LactationRecord Lactation { get; } = lactation;

    public ServiceAttempt Attempt { get; } = attempt;

    /// <summary>Its place in the lactation, from 1.</summary>
    public int Number { get; init; }

    /// <summary>Day 0.</summary>
    public Day Day => Attempt.DayZero;

    public Service Fact => Attempt.Fact;

    public ServiceOutcome Outcome { get; set; }

    /// <summary>Why the outcome is not known.</summary>
    public LeftOutReason Why { get; set; }

    /// <summary>The day she was first found pregnant by it.</summary>
    public Day? FoundOn { get; set; }

    /// <summary>The day the pregnancy was found, or reported, lost.</summary>
    public Day? LostOn { get; set; }

    /// <summary>The day on which a test's or examination's answer that she is open became known; null = not found by one.</summary>
    public Day? KnownOpenOn { get; set; }

    /// <summary>The protocol whose insemination it was; null = none planned it.</summary>
    public string? Protocol { get; set; }

    /// <summary>Whether she stayed pregnant by it, as far as known.</summary>
    public bool IsMaintained => Outcome == ServiceOutcome.Pregnant && LostOn is null;
}
