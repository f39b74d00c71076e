using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Explanations;

/// <summary>One line of an explanation: a rule, a sentence and the facts it rests on.</summary>
/// <param name="Rule">The rule's id, e.g. <c>T1</c>.</param>
/// <param name="Date">The day it leads to; absent where it leads to none.</param>
/// <param name="Text">A plain sentence.</param>
/// <param name="Facts">The facts it names.</param>
public sealed record Reason(string Rule, Day? Date, string Text, IReadOnlyList<FactId> Facts)
{
    /// <summary>A reason without a day.</summary>
    public static Reason Of(string rule, string text, params FactId[] facts) => new(rule, null, text, facts);
}
