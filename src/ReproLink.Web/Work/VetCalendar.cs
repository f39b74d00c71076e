using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;
using ReproLink.Web.Forms;

namespace ReproLink.Web.Work;

/// <summary>Everything the veterinarian's calendar shows.</summary>
/// <param name="Schedule">The work of the weeks shown.</param>
/// <param name="Grid">The same, counted.</param>
public sealed record VetCalendar(WorkSchedule Schedule, WorkGrid Grid)
{
    /// <summary>The pen chosen; absent = all.</summary>
    public string? Pen { get; init; }

    /// <summary>The herd's pens.</summary>
    public required IReadOnlyList<string> Pens { get; init; }

    /// <summary>How many weeks are shown.</summary>
    public required int Weeks { get; init; }

    /// <summary>Cows whose facts contradict each other, and those an examination decides.</summary>
    public required IReadOnlyList<AnimalState> Conflicting { get; init; }

    /// <summary>What changed since the last visit.</summary>
    public required SinceVisit Since { get; init; }

    /// <summary>The version in force, and saved versions that come into force later.</summary>
    public required IReadOnlyList<ProgrammeVersion> Versions { get; init; }

    /// <summary>The links to subscribe by that hold; absent = not shown to this key.</summary>
    public IReadOnlyList<FeedLink>? Links { get; init; }

    /// <summary>The address of a link just made: shown once.</summary>
    public string? NewAddress { get; init; }

    /// <summary>The moment up to which it knows.</summary>
    public required Instant KnownAt { get; init; }

    /// <summary>The herd's time zone.</summary>
    public required DateTimeZone Zone { get; init; }

    /// <summary>The approval as filled when something is wrong with it.</summary>
    public FilledForm Approval { get; init; } = FilledForm.Empty;

    /// <summary>The refusal as filled.</summary>
    public FilledForm Refusal { get; init; } = FilledForm.Empty;

    /// <summary>The link as filled.</summary>
    public FilledForm Link { get; init; } = FilledForm.Empty;
}

/// <summary>What changed since the bearer of a key last looked.</summary>
/// <param name="At">When that was; absent = never before.</param>
/// <param name="Lines">Work that is new, moved, fell away, was released or held back.</param>
public sealed record SinceVisit(Instant? At, IReadOnlyList<WorkChange> Lines)
{
    /// <summary>Test results and examinations recorded since, with the animal.</summary>
    public IReadOnlyList<(AnimalState Animal, Calendar.Facts.Fact Fact)> Results { get; init; } = [];

    /// <summary>Contradictions that were not there.</summary>
    public IReadOnlyList<(AnimalState Animal, Conflict Conflict)> Conflicts { get; init; } = [];

    /// <summary>Animals that a held result may mean, which none did.</summary>
    public IReadOnlyList<AnimalState> Held { get; init; } = [];

    /// <summary>The day of the look compared with.</summary>
    public Day? Day { get; init; }

    /// <summary>Whether there is anything.</summary>
    public bool IsEmpty => Lines.Count + Results.Count + Conflicts.Count + Held.Count == 0;
}
