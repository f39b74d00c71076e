using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Status;

/// <summary>What a result or examination decided.</summary>
public enum Decision
{
    /// <summary>Nothing: kept and shown.</summary>
    Nothing = 1,

    /// <summary>She is pregnant.</summary>
    Pregnant = 2,

    /// <summary>What it covers failed.</summary>
    Open = 3,

    /// <summary>Nothing is decided, she is presumed pregnant.</summary>
    Recheck = 4,
}

/// <summary>What one result or examination decided, and why.</summary>
/// <param name="Fact">The result.</param>
/// <param name="Decides">What it decided.</param>
/// <param name="Effective">The outcome it was judged as (rule T8); absent = none could be told.</param>
/// <param name="Reasons">Why, by rule and fact.</param>
public sealed record Judgement(FactId Fact, Decision Decides, Outcome? Effective, IReadOnlyList<Reason> Reasons);

/// <summary>The status from a day on.</summary>
/// <param name="From">The day.</param>
/// <param name="Status">The status.</param>
/// <param name="Fact">The fact that changed it.</param>
public sealed record StatusChange(Day From, AnimalStatus Status, FactId Fact);

/// <summary>Collects, while an animal is folded, what each fact did: for explanations, warnings and the timeline.</summary>
public sealed class FoldTrace
{
    private readonly List<Judgement> _judgements = [];
    private readonly List<StatusChange> _statuses = [];
    private readonly List<(FactId Fact, Reason Reason)> _notes = [];

    /// <summary>What each result and examination decided, in the order folded.</summary>
    public IReadOnlyList<Judgement> Judgements => _judgements;

    /// <summary>Each change of the shown status, in order.</summary>
    public IReadOnlyList<StatusChange> Statuses => _statuses;

    /// <summary>What is worth a warning: conflicts raised and facts that decide nothing, by fact.</summary>
    public IReadOnlyList<(FactId Fact, Reason Reason)> Notes => _notes;

    /// <summary>The judgement of one fact; null when it is no result or was not folded.</summary>
    public Judgement? Of(FactId fact) => _judgements.FindLast(j => j.Fact == fact);

    internal void Judge(FactId fact, Decision decides, Outcome? effective, params ReadOnlySpan<Reason> reasons) =>
        _judgements.Add(new Judgement(fact, decides, effective, reasons.ToArray()));

    internal void Note(FactId fact, Reason reason) => _notes.Add((fact, reason));

    internal void Status(Day day, AnimalStatus status, FactId fact)
    {
        if (_statuses.Count == 0 || _statuses[^1].Status != status)
        {
            _statuses.Add(new StatusChange(day, status, fact));
        }
    }
}
