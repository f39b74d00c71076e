using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>What a source and sourceId stand for now: the latest fact of that identity, or that it is gone.</summary>
/// <param name="Id">Stays the same when the sender replaces it.</param>
/// <param name="Animal">The herd's own name of the animal.</param>
/// <param name="Fact">The latest fact.</param>
/// <param name="Modified">When it became what it is: never earlier than that of anything read before.</param>
/// <param name="IsDeleted">Whether it no longer counts.</param>
public sealed record StoredEvent(FactId Id, string Animal, Fact Fact, Instant Modified, bool IsDeleted);

/// <summary>Which events are read.</summary>
/// <param name="Kinds">The kinds of fact they are.</param>
/// <param name="Shows">Whether a fact of these kinds is one of them at all; one that no longer is reads as deleted.</param>
public sealed record EventQuery(KindSet Kinds, Func<Fact, bool> Shows)
{
    /// <summary>Only these animals; null = all.</summary>
    public IReadOnlyCollection<string>? Animals { get; init; }

    /// <summary>Modified then or later; null = from the start. Deleted ones are read only when it is given.</summary>
    public Instant? From { get; init; }

    /// <summary>Modified then or earlier.</summary>
    public Instant? To { get; init; }

    /// <summary>The cursor of the page before.</summary>
    public string? After { get; init; }

    /// <summary>Most events of a page.</summary>
    public required int Limit { get; init; }
}

/// <summary>When what is known of animals last changed.</summary>
/// <param name="Animals">By name: her last fact or withdrawal.</param>
/// <param name="Rules">The last change of the herd's time zone, programmes or protocols; null = none.</param>
public sealed record LastChanges(IReadOnlyDictionary<string, Instant> Animals, Instant? Rules);
