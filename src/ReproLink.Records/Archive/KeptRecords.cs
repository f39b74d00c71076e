using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Records;

/// <summary>One thing a herd has on record, with its place among all of them and the moment it was recorded.</summary>
/// <param name="Order">Its place, from 1: in it things are put back. Rows of one place were recorded by one act.</param>
/// <param name="At">When it was recorded.</param>
public abstract record KeptRecord(long Order, Instant At);

/// <summary>A fact; its id and recording instant are on it.</summary>
public sealed record KeptFact(long Order, string Animal, Fact Fact) : KeptRecord(Order, Fact.Recorded)
{
    /// <summary>How it was taken out of the count; null = it stands.</summary>
    public KeptWithdrawal? Withdrawn { get; init; }
}

/// <summary>A withdrawal.</summary>
public sealed record KeptWithdrawal(long Order, FactId Fact, string Reason, string By, Instant At) : KeptRecord(Order, At);

/// <summary>A programme version.</summary>
public sealed record KeptProgramme(long Order, int Version, bool Draft, Programme Programme, string Received, string SavedBy, Instant At) : KeptRecord(Order, At);

/// <summary>A veterinarian's approval of a version.</summary>
public sealed record KeptApproval(long Order, int Version, string By, Day? Expires, Instant At) : KeptRecord(Order, At);

/// <summary>A veterinarian's refusal of a version.</summary>
public sealed record KeptRefusal(long Order, int Version, string By, string Note, Instant At) : KeptRecord(Order, At);

/// <summary>A form of a protocol of the herd's own.</summary>
public sealed record KeptProtocol(long Order, string Id, string Definition, string By, Instant At) : KeptRecord(Order, At);

/// <summary>A veterinarian's word for a recalled protocol.</summary>
public sealed record KeptConfirmation(long Order, string Protocol, string By, Instant At) : KeptRecord(Order, At);

/// <summary>A held result.</summary>
public sealed record KeptHeld(long Order, string HeldId, HeldDraft Draft, Instant At) : KeptRecord(Order, At)
{
    /// <summary>How it ended; null = it waits.</summary>
    public KeptHeldEnd? End { get; init; }
}

/// <summary>The end of a held result.</summary>
public sealed record KeptHeldEnd(long Order, string HeldId, HeldEnd End) : KeptRecord(Order, End.At);

/// <summary>A sampling round.</summary>
public sealed record KeptRound(long Order, int Round, Day Day, string? Name, string Specimen, string By, Instant At) : KeptRecord(Order, At);

/// <summary>A tube of a round.</summary>
public sealed record KeptTube(long Order, int Round, int Number, TubePlan Plan, int? Redraws, string By, Instant At) : KeptRecord(Order, At);

/// <summary>Something that happened to a tube.</summary>
/// <param name="Order">Its place.</param>
/// <param name="Round">The round.</param>
/// <param name="Number">The tube.</param>
/// <param name="Event">What.</param>
/// <param name="By">By whom; of a mark it is on the event too.</param>
public sealed record KeptTubeEvent(long Order, int Round, int Number, TubeEvent Event, string? By) : KeptRecord(Order, Event.Recorded);

/// <summary>Tubes that left together.</summary>
public sealed record KeptDispatch(long Order, int Round, int Number, Instant Left, string By, Instant At) : KeptRecord(Order, At);

/// <summary>A batch as received.</summary>
public sealed record KeptBatch(long Batch, Instant At, string Sender, string SentBy, string? Name, string MediaType, string? Header);

/// <summary>A line of a batch as received, and what became of it.</summary>
public sealed record KeptLine(
    long Batch, int Item, int? Line, string Raw, string? Source, string? SourceId, ReceivedDecision Decision, string? Why, FactId? Fact, string? HeldId);

/// <summary>Everything a herd owns, to be put into an empty one.</summary>
public sealed record HerdArchive
{
    /// <summary>The herd's name.</summary>
    public required string Name { get; init; }

    /// <summary>Its time zone.</summary>
    public required string TimeZone { get; init; }

    /// <summary>All that has a place in the order of the herd's records.</summary>
    public required IReadOnlyList<KeptRecord> Rows { get; init; }

    /// <summary>The batches received.</summary>
    public IReadOnlyList<KeptBatch> Batches { get; init; } = [];

    /// <summary>Their lines.</summary>
    public IReadOnlyList<KeptLine> Lines { get; init; } = [];

    /// <summary>How senders' files of results are read, every version.</summary>
    public IReadOnlyList<SavedMapping> ResultMappings { get; init; } = [];

    /// <summary>How senders' herd files are read, every version.</summary>
    public IReadOnlyList<SavedMapping> FactMappings { get; init; } = [];
}
