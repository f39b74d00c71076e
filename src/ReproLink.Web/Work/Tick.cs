using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Gates;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Web.Work;

/// <summary>A tick that could not be taken: everything typed, and what is wrong with it.</summary>
/// <param name="Animal">The animal.</param>
/// <param name="Step">The step.</param>
/// <param name="Values">What was typed, by field.</param>
/// <param name="Problems">Sentences by field.</param>
public sealed record TickProblem(string Animal, StepKind Step, IReadOnlyDictionary<string, string> Values, IReadOnlyDictionary<string, string> Problems);

/// <summary>A step that was ticked although it was not released: the gate closed since the page was made.</summary>
/// <param name="Animal">The animal.</param>
/// <param name="Step">The step.</param>
/// <param name="Clause">Why it was not released; absent = held for a reason that is no clause of the gate.</param>
/// <param name="Fact">What was recorded.</param>
public sealed record TickAlarm(string Animal, StepKind Step, GateClause? Clause, FactId Fact)
{
    /// <summary>The word in an address for a step that was held without a clause.</summary>
    public const string Held = "held";
}

/// <summary>What a page of one day's work is asked for beside the day.</summary>
/// <param name="On">The day.</param>
/// <param name="Pen">The pen; null = all.</param>
/// <param name="Once">Makes the page's forms repeatable: the same tick sent twice is one.</param>
public sealed record WorkDay(Day On, string? Pen, string Once);
