namespace ReproLink.Calendar.Explanations;

/// <summary>
/// What must stand beside every output that can show prostaglandin, or a needle (5.9). The words are ours; the warnings are
/// those of the published labels of the class (21 CFR 522.690 and 522.460) and common practice for sharps.
/// </summary>
public static class Cautions
{
    /// <summary>For bleed lists and work calendars.</summary>
    public static readonly IReadOnlyList<string> All =
    [
        "Prostaglandin ends a pregnancy. Give it only to the animals shown as firm on the day, never by a printed list alone: look again before you inject.",
        "Prescription medicines: only on a veterinarian's order. Product and dose stand on that order, not here; local rules come first.",
        "Women of child-bearing age and people with asthma or other airway disease take great care with prostaglandin, or leave it to others. It passes through skin: wear gloves, wash spills off at once with soap and water.",
        "A new needle for every animal. Used needles go straight into a sharps container: never recap them, never use them again.",
    ];
}
