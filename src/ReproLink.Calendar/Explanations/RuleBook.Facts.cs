using static ReproLink.Calendar.Explanations.EvidenceMark;

namespace ReproLink.Calendar.Explanations;

public static partial class RuleBook
{
    private static IReadOnlyList<Rule> FactRules =>
    [
        new("F1", "A fact counts when it was recorded, and not withdrawn, at the moment looked at, and occurred on or before the day looked at. Programme versions and approvals count from the moment they were recorded.",
            null, None, Definition),
        new("F2", "A result occurs on its sample day and is known from its report, or, without a report time, from its recording. A day knows what was reported by its end in the herd's time zone; a step, what was reported before its time.",
            null, None, Definition),
        new("F3", "Order within a day: arrival, calving, loss, oestrus, service, exposure, sample and result, examination, treatment, do-not-breed, dry-off, departure. A fact without a time counts from the start of its day.",
            null, None, Definition),
        new("F4", "A fact dated before the animal's birth, or while she was away, decides nothing. Facts before an arrival are her history and count. What contradicts other facts is accepted with a warning, so that the order of posting never matters.",
            null, None, Definition),
        new("F5", "A fact for an animal not on record makes her known, unregistered until her card comes.",
            null, None, Definition),
        new("F6", "A manager or veterinarian may declare a calving that raised a conflict right; that ends T7 e and f.",
            null, None, OwnPolicy),
    ];
}
