using static ReproLink.Calendar.Explanations.EvidenceMark;

namespace ReproLink.Calendar.Explanations;

public static partial class RuleBook
{
    private static IReadOnlyList<Rule> PlanRules =>
    [
        new("S1", "The programme names a protocol for cows, another for heifers, and when it starts: before the result, or once an open is known. Only protocols whose steps before the first gated one are GnRH or inserts start before the result.",
            "ovsynch-56 from day 25 before the result; heifers none",
            "Resynchronisation from day 25 with diagnosis on day 32, and GnRH on day 26 with blood on day 28 (Sinedino et al. 2014).", Published),
        new("S2", "A start before the result must leave a sampling day that is back for the first gated step, else it slips by start weekdays. A recorded first step near a candidate start pins it.",
            "at most 3 slips", None, OwnPolicy),
        new("S3", "Day intervals keep the wall clock, hour intervals are elapsed hours across clock changes. Planned times stay while recorded ones are within tolerance; otherwise later steps hang on the recorded time.",
            "first step 72 hours either side, pgf 24, later GnRH 8 early to 16 late, insemination 8",
            "Published ranges where the protocol has one; else proposals.", OwnPolicy),
        new("S4", "Prostaglandin and protocol inseminations need her known open, or never served with a known history, with nothing later, held or contradictory; else they are held with the first clause that closes the gate.",
            null, "Datasheets: prostaglandin ends a pregnancy. Every clause withholds.", OwnPolicy),
        new("S5", "Before the result gated steps are conditional only while a result can still be known in time; then held. Open makes them firm, pregnant cancels all but removing an insert, recheck holds them.",
            null, None, OwnPolicy),
        new("S6", "A service on observed oestrus cancels the plan and starts a new day 0.",
            null, "Insemination on oestrus in resynchronisation trials.", CommonPractice),
        new("S7", "Outside tolerance a step is skipped, replaced or lets the plan lapse; a lapsed plan restarts only for an open animal or while a draw can still serve it. Unrecorded steps count as done, or as missed, by the programme.",
            "assumed done", None, OwnPolicy),
        new("S8", "Drug steps and protocol inseminations are released only while a veterinarian's approval of the governing programme version holds. Doses are never defaulted or printed.",
            "no approval", "Prescription only in most countries.", OwnPolicy),
        new("S9", "Branches that need a corpus luteum need an examination that says so; blood does not show one.",
            null, "Resynchronisation by presence of a corpus luteum is decided by ultrasound in the published trials.", Published),
        new("S10", "Work days and recording go by the version in force on the day; test, confirmation and resynchronisation rules by the version on the latest service's day (exposure: its last day), before any service on the calving day; first service by the calving.",
            null, None, Definition),
        new("5.8", "Due is day 0 plus gestation length by the dam's breed, the mean of both breeds if the sire's is known; dry-off is counted back from the due day; of an exposure the last day gives the due day, the first the window and the dry-off.",
            "dry-off 60 days before due, window 11 days either side, other breeds 283 days",
            "Breed means of gestation length in extension tables; dry period of 51-60 days as the long-standing standard (review, J Dairy Sci 2003;86:3027). The window is own policy.", Published),
    ];
}
