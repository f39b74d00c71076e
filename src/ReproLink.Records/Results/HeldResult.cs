using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>A received result that could not be tied to one animal and sample. Nothing received is dropped.</summary>
/// <param name="Source">Who sent it.</param>
/// <param name="SourceId">The sender's id.</param>
/// <param name="Animal">The animal it names.</param>
/// <param name="Tube">The tube it names.</param>
/// <param name="Reason">Why it is held, e.g. <c>unknown-animal</c>.</param>
/// <param name="Content">The item as received, JSON.</param>
/// <param name="Draft">What is appended once it is tied; null when that cannot be said yet.</param>
public sealed record HeldDraft(
    string Source, string SourceId, string? Animal, string? Tube, string Reason, string Content, FactDraft? Draft)
{
    /// <summary>The reason that an animal's appearance settles by itself (rule T9).</summary>
    public const string UnknownAnimal = "unknown-animal";

    /// <summary>Other animals it may mean (rule S4): both of a mismatch, every match of an ambiguous identifier.</summary>
    public IReadOnlyList<string> MayMean { get; init; } = [];
}

/// <summary>How a held result ended.</summary>
public static class HeldEnding
{
    /// <summary>The animal appeared and it was appended by itself.</summary>
    public const string Released = "released";

    /// <summary>A person tied it.</summary>
    public const string Assigned = "assigned";

    /// <summary>A person set it aside.</summary>
    public const string Dismissed = "dismissed";

    /// <summary>The sender sent it again, otherwise.</summary>
    public const string Replaced = "replaced";
}

/// <summary>How and when a held result ended.</summary>
/// <param name="Ending">One of <see cref="HeldEnding"/>.</param>
/// <param name="By">Who ended it; the source, when it ended by itself.</param>
/// <param name="Note">Why, in that person's words.</param>
/// <param name="At">When.</param>
/// <param name="Fact">The fact it became.</param>
public sealed record HeldEnd(string Ending, string By, string Note, Instant At, FactId? Fact);

/// <summary>A held result as stored.</summary>
/// <param name="HeldId">Its id, <c>h_</c> and 13 letters and digits.</param>
/// <param name="Draft">What was received.</param>
/// <param name="Received">When.</param>
/// <param name="Sequence">Its place among the changes of the herd.</param>
/// <param name="End">How it ended; null while it is open.</param>
public sealed record HeldResult(string HeldId, HeldDraft Draft, Instant Received, long Sequence, HeldEnd? End);

/// <summary>What became of a decision about a held result.</summary>
public enum HeldStatus
{
    /// <summary>Settled now.</summary>
    Settled = 1,

    /// <summary>Settled before: nothing was done.</summary>
    AlreadySettled = 2,

    /// <summary>The herd has no such held result.</summary>
    NotFound = 3,
}

/// <summary>What became of a decision, and of the fact when one was appended.</summary>
public sealed record HeldDecision(HeldStatus Status, AppendAnswer? Fact)
{
    /// <summary>The id under which a reopened result waits again.</summary>
    public string? Reopened { get; init; }

    /// <summary>When it was recorded.</summary>
    public Instant Recorded { get; init; }

    /// <summary>An animal as the decision leaves her; only while the answer is being rendered inside the transaction.</summary>
    public AnimalHistory? History(string animal) => HistoryOf?.Invoke(animal);

    internal Func<string, AnimalHistory?>? HistoryOf { get; init; }
}
