using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>A batch of results as received.</summary>
/// <param name="Sender">Who it comes from: the sender named, else the key.</param>
/// <param name="SentBy">The key that sent it.</param>
/// <param name="Name">The file's name, as the caller gave it.</param>
/// <param name="MediaType">Its form.</param>
/// <param name="Header">The header line of a CSV.</param>
/// <param name="Lines">Its lines or items, in order.</param>
public sealed record ReceivedBatch(
    string Sender, string SentBy, string? Name, string MediaType, string? Header, IReadOnlyList<ReceivedLine> Lines);

/// <summary>One line of a batch, and where it went.</summary>
/// <param name="Line">Its line in a CSV file, the header being line 1; absent for an item of a JSON list.</param>
/// <param name="Raw">Its text as received.</param>
/// <param name="Source">The source read from it.</param>
/// <param name="SourceId">The sourceId read from it.</param>
public sealed record ReceivedLine(int? Line, string Raw, string? Source, string? SourceId)
{
    /// <summary>Its place among the facts of the submission; absent = it became none.</summary>
    public int? Fact { get; init; }

    /// <summary>Its place among the held of the submission; absent = it was not held.</summary>
    public int? Held { get; init; }

    /// <summary>Why it was held or rejected.</summary>
    public string? Why { get; init; }
}

/// <summary>What became of a line. The numbers are stored: never renumber one.</summary>
public enum ReceivedDecision
{
    /// <summary>It became a fact.</summary>
    Accepted = 1,

    /// <summary>It became a fact in the place of an earlier one.</summary>
    Replaced = 2,

    /// <summary>It was on record already.</summary>
    Duplicate = 3,

    /// <summary>It waits for a person.</summary>
    Held = 4,

    /// <summary>It could not be read.</summary>
    Rejected = 5,
}

/// <summary>A batch at a glance.</summary>
/// <param name="Batch">Its number.</param>
/// <param name="At">When it was received.</param>
/// <param name="Sender">Who it comes from.</param>
/// <param name="Name">The file's name.</param>
/// <param name="Lines">How many lines.</param>
/// <param name="Held">How many of them were held.</param>
/// <param name="Rejected">How many of them were rejected.</param>
public sealed record ReceivedGlance(long Batch, Instant At, string Sender, string? Name, int Lines, int Held, int Rejected);

/// <summary>A line as stored.</summary>
/// <param name="Batch">Its batch.</param>
/// <param name="Item">Its place in the batch, from 1.</param>
/// <param name="Line">Its line in a CSV file.</param>
/// <param name="Name">The file's name.</param>
/// <param name="Sender">Who it comes from.</param>
/// <param name="SentBy">The key that sent it.</param>
/// <param name="At">When it was received.</param>
/// <param name="MediaType">The form of the batch.</param>
/// <param name="Header">The header line of its file.</param>
/// <param name="Raw">Its text as received.</param>
/// <param name="SourceId">The sender's id.</param>
/// <param name="Decision">What became of it.</param>
/// <param name="Why">Why it was held or rejected.</param>
/// <param name="Fact">The fact it became, or was a duplicate of.</param>
/// <param name="HeldId">The held result it became.</param>
public sealed record StoredLine(
    long Batch,
    int Item,
    int? Line,
    string? Name,
    string Sender,
    string SentBy,
    Instant At,
    string MediaType,
    string? Header,
    string Raw,
    string? SourceId,
    ReceivedDecision Decision,
    string? Why,
    FactId? Fact,
    string? HeldId);
