using static ReproLink.Calendar.Explanations.EvidenceMark;

namespace ReproLink.Calendar.Explanations;

public static partial class RuleBook
{
    private static IReadOnlyList<Rule> ListRules =>
    [
        new("5.3", "Status is the fold of the facts: not served, awaiting test, pregnant, pregnant with caution, open, recheck, conflict; do-not-breed and left outrank the rest in what is shown.",
            null, None, Definition),
        new("W1", "What blood is wanted for: first test, resample, resolving a conflict, caution retest, confirmation. A sample on its way is waited for until the second laboratory working day after its expected report.",
            "confirmation on days 74-90 and 200-220 by blood",
            "Level rises from day 74 (nadir days 46-67 in milk, 53-60 in plasma; Ricci et al. 2015); second test before dry-off on a commercial laboratory sheet.", Published),
        new("W2", "A window opens with the latest bound that applies and closes with the last sampling day whose answer is back for the step it serves, else on the overdue day; the target is moved into the window.",
            "target day 32, overdue day 45",
            "Early peak of the protein on day 32 (Ricci et al. 2015), preferred first test 30-35. Day 45 is own policy.", Published),
        new("W3", "After its last day a need stays, overdue. Every answer says on which day it next changes by itself.",
            null, None, Definition),
        new("B1", "Each animal with a need is planned on the last sampling day not after her target, else on the first one possible. Closed dates are no sampling days.",
            "Mondays and Thursdays", "Weekly routines of published programmes.", CommonPractice),
        new("B2", "For days to come no result is assumed and every planned sample is taken as drawn; days before today list nothing.",
            null, None, Definition),
        new("B3", "Listed by day, pen and animal in natural order, with totals: one tube and label an animal, needles with a tenth as spares, at least two.",
            "10 % spare needles, at least 2", "One needle per cow against the transfer of blood-borne disease.", CommonPractice),
        new("B4", "Animals above the daily limit move to the next sampling day, the least urgent first.",
            "150 tubes a day", None, OwnPolicy),
        new("B5", "Every animal of the herd appears once: listed, or counted under one answer and one reason.",
            null, None, Definition),
        new("L1", "A sample leaves on the next dispatch day, travels, is moved to the laboratory's next working day and is reported some working days later. A test on the farm reports the same day.",
            "dispatch Monday to Thursday, 1 day on the road, 0 working days, 17:00", "Instruction pages of testing laboratories.", CommonPractice),
        new("L2", "A draw serves a step when its report is expected before the step's time; a test read on the farm serves every step of its day.",
            "on the farm 30 minutes", None, Definition),
        new("L3", "A sample dispatched more than 14 days after it was drawn is invalid.",
            "14 days", "Chilled samples stayed stable for 6 months with heparin or EDTA; laboratories usually ask for 7-14 days (common practice). The limit is own policy.", OwnPolicy),
    ];
}
