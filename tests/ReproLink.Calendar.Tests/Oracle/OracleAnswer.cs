using ReproLink.Calendar.Dates;

namespace ReproLink.Calendar.Tests.Oracle;

/// <summary>The oracle's answer for one animal and day, in the words of the rules. Window only where she is not-yet or eligible.</summary>
public sealed record OracleAnswer(string Answer, string Reason, string? Need, bool Overdue, Day? Opens, Day? Closes)
{
    /// <summary>What W3 compares to find the day on which the answer changes.</summary>
    public (string Answer, string? Need, bool Overdue) Tuple => (Answer, Need, Overdue);
}

/// <summary>One bound on the first day of a window, with its rule.</summary>
public sealed record OracleBound(string Rule, Day Day);

/// <summary>The oracle's view of her status: the word shown, the word underneath and what supports it.</summary>
public sealed record OracleStatus(string Shown, string Underneath, string Conflicts, Day? DatedFrom, Day? DatedTo, bool Heifer);
