using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Testing;

/// <summary>One animal's answer on one day with everything that explains it.</summary>
/// <param name="State">The animal.</param>
/// <param name="On">The day asked about.</param>
/// <param name="Verdict">Answer, reason, need, window.</param>
/// <param name="ChangesOn">The next day on which answer, need or overdue differ, facts frozen; absent = never.</param>
/// <param name="Candidates">Every bound that was weighed.</param>
/// <param name="Binding">The bound that decides <c>opens</c>; absent = no window.</param>
public sealed record WindowAnswer(
    AnimalState State, Day On, Verdict Verdict, Day? ChangesOn, IReadOnlyList<Candidate> Candidates, Candidate? Binding)
{
    /// <summary>Why the answer is what it is, printed from the candidates and the state, never recomputed.</summary>
    public IReadOnlyList<Reason> Reasons => AnswerReasons.Of(this);
}
