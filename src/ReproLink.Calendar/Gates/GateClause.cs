namespace ReproLink.Calendar.Gates;

/// <summary>Why the gate is closed, in the order in which they are looked at (rule S4, S8).</summary>
public enum GateClause
{
    /// <summary>A held result names her or may mean her.</summary>
    HeldResult = 1,

    /// <summary>Facts contradict each other (T7).</summary>
    Conflict = 2,

    /// <summary>Inconclusive: presumed pregnant.</summary>
    Recheck = 3,

    /// <summary>What was done to her before is not known.</summary>
    HistoryUnknown = 4,

    /// <summary>An open result does not cover every service and exposure.</summary>
    NotCovered = 5,

    /// <summary>She is not known to be open.</summary>
    NotOpen = 6,

    /// <summary>No answer can be known in time.</summary>
    NoResultInTime = 7,

    /// <summary>The programme is not approved by a veterinarian.</summary>
    AwaitingApproval = 8,
}

/// <summary>The words and sentences of the clauses.</summary>
public static class GateWords
{
    /// <summary>The word as written in answers.</summary>
    public static string Of(GateClause clause) => clause switch
    {
        GateClause.HeldResult => "held-result",
        GateClause.Conflict => "conflict",
        GateClause.Recheck => "recheck",
        GateClause.HistoryUnknown => "history-unknown",
        GateClause.NotCovered => "not-covered",
        GateClause.NotOpen => "not-open",
        GateClause.NoResultInTime => "no-result-in-time",
        GateClause.AwaitingApproval => "awaiting-approval",
        _ => throw new ArgumentOutOfRangeException(nameof(clause), clause, "no such clause"),
    };

    /// <summary>A plain sentence.</summary>
    public static string Sentence(GateClause clause) => clause switch
    {
        GateClause.HeldResult => "a result waits for a person and names her or may mean her: resolve it first",
        GateClause.Conflict => "her facts contradict each other: she is treated as pregnant until that is settled",
        GateClause.Recheck => "her last result is inconclusive: presumed pregnant for every drug",
        GateClause.HistoryUnknown => "what she was bred to before is not known: she needs a valid open first",
        GateClause.NotCovered => "the open result does not cover every service and day with the bull",
        GateClause.NotOpen => "she is not known to be open",
        GateClause.NoResultInTime => "no answer can be known before this step",
        GateClause.AwaitingApproval => "the programme waits for a veterinarian's approval",
        _ => throw new ArgumentOutOfRangeException(nameof(clause), clause, "no such clause"),
    };
}
