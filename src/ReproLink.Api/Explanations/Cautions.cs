namespace ReproLink.Api.Explanations;

/// <summary>What stands on everything that can show a prostaglandin step.</summary>
internal static class Cautions
{
    public static readonly IReadOnlyList<string> Prostaglandin =
    [
        "Prostaglandin (pgf) ends a pregnancy. Prescription only, on a veterinarian's order.",
        "Women of child-bearing age and people with asthma or other airway disease take great care with prostaglandin, or leave it to others.",
        "Prostaglandin passes through the skin: wash spills off at once. Used needles go straight into a sharps container.",
    ];

    /// <summary>All of it in one line, for forms without room.</summary>
    public static readonly string OneLine = string.Join(" ", Prostaglandin);
}
