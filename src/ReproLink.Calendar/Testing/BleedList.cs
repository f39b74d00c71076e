using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>Which animals to bleed in a period, day by day, and every other animal counted once (rules B1–B5).</summary>
/// <param name="From">First day asked about.</param>
/// <param name="To">Last day asked about.</param>
/// <param name="AsOf">The day it is made on; nothing is listed before it.</param>
/// <param name="Days">The sampling days with animals, in order.</param>
/// <param name="NotListed">The others, under one answer and reason each.</param>
public sealed record BleedList(Day From, Day To, Day AsOf, IReadOnlyList<BleedDay> Days, IReadOnlyList<CountedRest> NotListed);

/// <summary>One sampling day.</summary>
/// <param name="Date">The day.</param>
/// <param name="Animals">The animals by pen and name.</param>
public sealed record BleedDay(Day Date, IReadOnlyList<BleedLine> Animals)
{
    /// <summary>Animals, and as many tubes and labels.</summary>
    public int Count => Animals.Count;

    /// <summary>One needle an animal, plus a tenth as spares, rounded up, at least two (B3).</summary>
    public int Needles => Count + Math.Max(2, (Count + 9) / 10);
}

/// <summary>One animal on a sampling day.</summary>
/// <param name="Answer">Her answer on that day, with window and reasons.</param>
/// <param name="Serves">The step that hangs on her answer; absent = none, or the draw comes too late for it.</param>
/// <param name="Moved">Whether the daily limit moved her to this day (B4).</param>
public sealed record BleedLine(WindowAnswer Answer, ServedStep? Serves, bool Moved)
{
    /// <summary>The animal.</summary>
    public AnimalState State => Answer.State;
}

/// <summary>Animals that are not listed, under one answer and reason (B5).</summary>
/// <param name="Answer">The answer.</param>
/// <param name="Reason">The reason as a word of the closed list.</param>
/// <param name="Animals">The animals.</param>
public sealed record CountedRest(Answer Answer, string Reason, IReadOnlyList<AnimalState> Animals);
