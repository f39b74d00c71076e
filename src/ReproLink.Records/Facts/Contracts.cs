using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>A fact to append. Source and sourceId are set on it; its id and recording instant are set by the store.</summary>
public sealed record FactDraft(string Animal, Fact Fact);

/// <summary>What became of a draft.</summary>
public enum AppendStatus
{
    /// <summary>Appended.</summary>
    Accepted = 1,

    /// <summary>Appended, and the fact of the same source and sourceId withdrawn.</summary>
    Replaced = 2,

    /// <summary>On record with the same content: nothing was done.</summary>
    Duplicate = 3,
}

/// <summary>What became of a draft, and the id of the fact that now stands for it.</summary>
public sealed record AppendAnswer(AppendStatus Status, FactId Id);

/// <summary>A fact as stored.</summary>
public sealed record StoredFact(string Animal, Fact Fact, long Sequence, Instant? Withdrawn, string? WithdrawnReason);

/// <summary>What became of a withdrawal.</summary>
public enum WithdrawStatus
{
    /// <summary>Withdrawn now.</summary>
    Withdrawn = 1,

    /// <summary>Withdrawn before: nothing was done.</summary>
    AlreadyWithdrawn = 2,

    /// <summary>The herd has no such fact.</summary>
    NotFound = 3,
}

/// <summary>Part of a list.</summary>
/// <param name="Items">In order.</param>
/// <param name="Next">Give it as <c>after</c> for the next part; null after the last.</param>
public sealed record Page<T>(IReadOnlyList<T> Items, string? Next);
