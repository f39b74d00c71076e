using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;
using ReproLink.Records;

namespace ReproLink.Web.Results;

/// <summary>One received line: what it would do, or did.</summary>
public sealed record ResultRow
{
    /// <summary>Its line in a file, else its place.</summary>
    public required int Line { get; init; }

    /// <summary>Its text as received.</summary>
    public required string Text { get; init; }

    /// <summary>What becomes of it.</summary>
    public required ReceivedDecision Becomes { get; init; }

    /// <summary>The animal it is tied to.</summary>
    public string? Animal { get; init; }

    /// <summary>What it decides about her.</summary>
    public Decision Decides { get; init; } = Decision.Nothing;

    /// <summary>What it says.</summary>
    public Outcome? Says { get; init; }

    /// <summary>Why: of what it decides, or why it is held or cannot be read.</summary>
    public IReadOnlyList<string> Why { get; init; } = [];

    /// <summary>What is odd about it.</summary>
    public IReadOnlyList<string> Warnings { get; init; } = [];

    /// <summary>How she stands with it.</summary>
    public AnimalStatus? Status { get; init; }

    /// <summary>Why prostaglandin is withheld from her with it; null = it is not.</summary>
    public GateClause? Withheld { get; init; }

    /// <summary>When she is to be sampled again.</summary>
    public Window? Again { get; init; }

    /// <summary>The held result it became.</summary>
    public string? HeldId { get; init; }

    /// <summary>What became of it since: decided by a person, withdrawn.</summary>
    public string? Since { get; init; }
}

/// <summary>An animal a held result may be of.</summary>
/// <param name="Animal">Her name.</param>
/// <param name="Pen">Her pen.</param>
/// <param name="Reasons">Why it may be hers.</param>
public sealed record HeldCandidate(string Animal, string? Pen, IReadOnlyList<string> Reasons);

/// <summary>A held result as a person decides about it.</summary>
/// <param name="Held">The held result.</param>
/// <param name="Why">Why it is held, in a sentence.</param>
/// <param name="Says">What it says, field by field.</param>
/// <param name="Candidates">Whose it may be.</param>
/// <param name="Received">The day it was received.</param>
public sealed record HeldShown(HeldResult Held, string Why, IReadOnlyList<(string Name, string Text)> Says, IReadOnlyList<HeldCandidate> Candidates, Day Received)
{
    /// <summary>Whether a person must say what it means, because nothing in it does.</summary>
    public bool NeedsOutcome => Says.All(s => s.Name != "outcome");

    /// <summary>The animals whose prostaglandin it withholds.</summary>
    public IReadOnlyList<string> Closes => [.. Held.Draft.MayMean.Append(Held.Draft.Animal).OfType<string>().Distinct(StringComparer.Ordinal)];
}

/// <summary>A file being looked at.</summary>
/// <param name="Text">What is in it.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Sender">Who sent it.</param>
public sealed record ResultFile(string Text, string? Name, string? Sender);
