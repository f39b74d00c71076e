using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Testing;

/// <summary>First, wanted and last useful day; end days included (rule W2).</summary>
/// <param name="Opens">First day.</param>
/// <param name="Target">Wanted day, within the window.</param>
/// <param name="Closes">Last useful day; absent = none. Never before <paramref name="Opens"/>.</param>
public readonly record struct Window(Day Opens, Day Target, Day? Closes)
{
    /// <summary>The window with its ends in brackets, for messages.</summary>
    public override string ToString() => $"[{Opens}, {Target}, {(Closes is { } closes ? closes.ToString() : "no end")}]";
}

/// <summary>The step that hangs on an answer, and its day.</summary>
/// <param name="Step">What is done.</param>
/// <param name="Date">When.</param>
public readonly record struct ServedStep(StepKind Step, Day Date);

/// <summary>One animal's answer on one day, without its explanation: what the list and <c>changesOn</c> are computed from.</summary>
/// <param name="Answer">The answer; absent = she left, she is outside.</param>
/// <param name="Reason">The reason.</param>
/// <param name="Need">The need; absent = none.</param>
/// <param name="Overdue">Whether the window is past (rule W3).</param>
public readonly record struct Verdict(Answer? Answer, AnswerReason Reason, Need? Need, bool Overdue)
{
    /// <summary>The window, where there is a need with one.</summary>
    public Window? Window { get; init; }

    /// <summary>The decision a first test serves.</summary>
    public ServedStep? Serves { get; init; }

    /// <summary>The sample whose result is waited for.</summary>
    public Sample? Waiting { get; init; }

    /// <summary>The spoiled or overdue sample that another is to replace.</summary>
    public FactId? Replaces { get; init; }

    /// <summary>The next day on which the answer may change by itself, other than the window's ends.</summary>
    public Day? Until { get; init; }

    /// <summary>Whether answer, need and overdue are the same (rule W3).</summary>
    public bool SameAs(Verdict other) =>
        Answer == other.Answer && Need == other.Need && Overdue == other.Overdue;
}
