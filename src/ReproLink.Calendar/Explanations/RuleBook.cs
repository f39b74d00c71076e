namespace ReproLink.Calendar.Explanations;

/// <summary>Where a rule's figure comes from.</summary>
public enum EvidenceMark
{
    /// <summary>The figure was read in the named source.</summary>
    Published = 1,

    /// <summary>The source is recalled and was not read again: verify before relying on it.</summary>
    Recalled = 2,

    /// <summary>Common practice without a single source.</summary>
    CommonPractice = 3,

    /// <summary>Own policy: needs a veterinarian's sign-off.</summary>
    OwnPolicy = 4,

    /// <summary>No figure of the field: how the program counts and orders.</summary>
    Definition = 5,
}

/// <summary>One rule of the calendar, as people read it.</summary>
/// <param name="Id">The id that stands in every explanation, e.g. <c>T1</c> or <c>T7 a</c>.</param>
/// <param name="Sentence">The rule in plain words.</param>
/// <param name="Default">The default of what a programme may set, with its floor; absent = nothing to set.</param>
/// <param name="Source">Where it comes from.</param>
/// <param name="Mark">How good the source is.</param>
public sealed record Rule(string Id, string Sentence, string? Default, string Source, EvidenceMark Mark);

/// <summary>All rules of the calendar. <c>docs/rules.md</c> is printed from it.</summary>
public static partial class RuleBook
{
    private const string None = "-";

    /// <summary>The rules in the order of their ids: facts, tests, status, windows, lists, laboratory, plans, pregnancy.</summary>
    public static IReadOnlyList<Rule> All { get; } = [.. FactRules, .. TestRules, .. ConflictRules, .. ListRules, .. PlanRules];

    /// <summary>The rule of an id; null = there is none.</summary>
    public static Rule? Find(string id) => All.FirstOrDefault(r => r.Id == id);

    /// <summary>The words of a mark.</summary>
    public static string Of(EvidenceMark mark) => mark switch
    {
        EvidenceMark.Published => "published",
        EvidenceMark.Recalled => "recalled, verify",
        EvidenceMark.CommonPractice => "common practice",
        EvidenceMark.OwnPolicy => "own policy, needs a veterinarian's sign-off",
        EvidenceMark.Definition => "definition",
        _ => throw new ArgumentOutOfRangeException(nameof(mark), mark, "no such mark"),
    };
}
