using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Pregnancies;
using ReproLink.Calendar.Resynchronisation;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Web.Work;

/// <summary>Everything an animal's page shows, of one moment.</summary>
public sealed record AnimalShown(AnimalState State, WindowAnswer Answer, AnimalPlans Plans, FoldTrace Trace, Lactation Lactation)
{
    /// <summary>Why prostaglandin may not be given; absent = the gate is open and the programme approved.</summary>
    public GateClause? Clause { get; init; }

    /// <summary>The dates of her pregnancy; absent = none stands.</summary>
    public PregnancyDates? Dates { get; init; }

    /// <summary>Held results that name her or may mean her.</summary>
    public IReadOnlyList<HeldNote> Held { get; init; } = [];

    /// <summary>The received lines behind her results.</summary>
    public required ILookup<FactId, StoredLine> Received { get; init; }

    /// <summary>The herd's time zone.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>The day on whose evening it was known so; absent = now.</summary>
    public Day? AsKnownOn { get; init; }

    /// <summary>What is wrong with the day asked for.</summary>
    public string? KnownProblem { get; init; }
}

/// <summary>A held result on an animal's page.</summary>
/// <param name="HeldId">Its id.</param>
/// <param name="Received">When it came.</param>
/// <param name="Why">Why it is held, a sentence.</param>
public sealed record HeldNote(string HeldId, Instant Received, string Why);
