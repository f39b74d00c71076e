using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Rounds;

namespace ReproLink.Records;

/// <summary>One animal of a round that is to be frozen.</summary>
/// <param name="Animal">The herd's own name of her.</param>
/// <param name="Pen">Where she is looked for.</param>
/// <param name="Need">What the sample is to answer, as a word; absent = she was picked by hand without a need.</param>
/// <param name="DaysPostService">Days post-service on the day of the round.</param>
public sealed record TubePlan(string Animal, string? Pen, string? Need, int? DaysPostService);

/// <summary>A round that is to be frozen.</summary>
/// <param name="Day">The sampling day.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Specimen">What is drawn.</param>
/// <param name="Tubes">In the order in which they are worked through.</param>
public sealed record RoundPlan(Day Day, string? Name, string Specimen, IReadOnlyList<TubePlan> Tubes)
{
    /// <summary>Whether animals that wait in another round of the same day are left out: a list is made once.</summary>
    public bool SkipPlanned { get; init; }
}

/// <summary>A labelled tube.</summary>
/// <param name="Round">Its round.</param>
/// <param name="Number">Its number in the round.</param>
/// <param name="Plan">Whose it is, for ever.</param>
/// <param name="Redraws">The number of the tube it takes the place of.</param>
/// <param name="Standing">Where it stands.</param>
public sealed record Tube(int Round, int Number, TubePlan Plan, int? Redraws, TubeStanding Standing)
{
    /// <summary>What is printed on it.</summary>
    public string Name => TubeNames.Of(Round, Number);

    public string Animal => Plan.Animal;
}

/// <summary>Tubes that left together.</summary>
/// <param name="Number">Its number in the round.</param>
/// <param name="At">When they left.</param>
/// <param name="By">Who sent them.</param>
/// <param name="Recorded">When it was recorded.</param>
public sealed record Dispatch(int Number, Instant At, string By, Instant Recorded);

/// <summary>One sampling session's list, frozen because labels are printed from it.</summary>
/// <param name="Number">Its number in the herd.</param>
/// <param name="Day">The sampling day.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Specimen">What is drawn.</param>
/// <param name="Created">When it was frozen.</param>
/// <param name="CreatedBy">By which key.</param>
/// <param name="Tubes">In order.</param>
/// <param name="Dispatches">In order.</param>
public sealed record Round(
    int Number,
    Day Day,
    string? Name,
    string Specimen,
    Instant Created,
    string CreatedBy,
    IReadOnlyList<Tube> Tubes,
    IReadOnlyList<Dispatch> Dispatches)
{
    /// <summary>A tube by its number; null = none.</summary>
    public Tube? Find(int number) => number >= 1 && number <= Tubes.Count ? Tubes[number - 1] : null;
}

/// <summary>What became of something done to a round.</summary>
public enum RoundStatus
{
    /// <summary>Done.</summary>
    Done = 1,

    /// <summary>It was so already: nothing was done.</summary>
    Unchanged = 2,

    /// <summary>The herd has no such round.</summary>
    NoRound = 3,

    /// <summary>The round has no such tube.</summary>
    NoTube = 4,

    /// <summary>The tube left the farm.</summary>
    AlreadyDispatched = 5,

    /// <summary>There is nothing to freeze, or nothing to send.</summary>
    Nothing = 6,

    /// <summary>A tube named has no blood in it.</summary>
    NoBlood = 7,

    /// <summary>She has a tube in the round that is still to be drawn, or holds her blood.</summary>
    HasTube = 8,

    /// <summary>Somebody else said something of the tube since the caller looked.</summary>
    Changed = 9,
}

/// <summary>What became of something done to a round, and how it leaves the round.</summary>
/// <param name="Status">What became of it.</param>
/// <param name="Round">The round after it; absent when there is none.</param>
/// <param name="Tube">The number of the tube it was about.</param>
/// <param name="Dispatch">The number of the dispatch made.</param>
public sealed record RoundAnswer(RoundStatus Status, Round? Round, int? Tube = null, int? Dispatch = null);
