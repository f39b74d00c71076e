using static ReproLink.Calendar.Explanations.EvidenceMark;

namespace ReproLink.Calendar.Explanations;

public static partial class RuleBook
{
    private static IReadOnlyList<Rule> TestRules =>
    [
        new("T1", "First day after service, blood or milk, cow or heifer. Milk counts only where the programme configures a milk test. An embryo transfer counts from the recipient's oestrus.",
            "28 days (floor 28)",
            "Commercial laboratory sheets, 28 days, blood and milk; reliable from day 28 in serum, n = 397 (Friedrich & Holtz 2010, Reprod Domest Anim 45:142). Heifers are not lower (2016, doi 10.3906/vet-1602-41). An older milk assay was reliable only from day 150.", Published),
        new("T2", "First day after calving; before the caution day a pregnant counts with caution (protein of the last pregnancy may be left) and is tested again from that day; found twice with caution, an open counts only from 7 days after the last pregnant. Not for heifers.",
            "60 days in milk (floor 60), caution before 90 (floor 90)",
            "Minimum on a commercial laboratory sheet, 60 days; 3 of 11 cows still above the threshold 70-80 days after calving (Ropstad et al.). The caution day is own policy; services of the trade quote 73 and 90 (recalled).", Published),
        new("T3", "First day after a loss: short when the lost pregnancy was young, long when it was older or of unknown age.",
            "14 days (floor 14); 60 days (floor 60) from an age of 60 days",
            "Natural loss on days 32-102: non-pregnant level within 7-14 days (Ricci et al. 2015); induced loss on day 39: 9.5 days (Giordano et al. 2012). The long clearance is own policy, taken from calving.", Published),
        new("T4", "Of an exposure to a bull the last possible day takes the place of the service day: bull out, or the day asked about while he is in. It counts for the lactation if its last day is after the calving.",
            "as T1", "State extension 2020: 30-45 days after the end of the season.", Published),
        new("T5", "Open fails the services old enough; what is not covered awaits its own test. Pregnant is dated by the latest covered service. Recheck is presumed pregnant for every drug and sampled again; two in a row need an examination. Invalid changes nothing.",
            "resample 7 to 14 days after (floor 7)",
            "An open says nothing of a service younger than T1: derived by arithmetic. Rechecks: own policy; 3.3-8.5 % of samples are inconclusive (Romano & Larson 2010).", OwnPolicy),
        new("T6", "Examinations follow T5 from their own first day, have no bound after calving or loss and outrank blood of the same day. A loss found by an examination is an open of that day.",
            "ultrasound day 28, palpation day 35", "State extension sheets: ultrasound or blood 26-30 days, palpation 35-45 days.", Published),
        new("T7", "Facts that contradict each other close the gate until an examination, a late enough sample or, for e and f, a person's word ends the conflict. A sample must be late enough for every open conflict.",
            null, "The protein may lag a loss (positive on day 32, return to heat on day 45): no prostaglandin on heat alone.", OwnPolicy),
        new("T8", "A number becomes an outcome by the cut-offs of the same assay and unit in force on the sample day; ties are recheck; outcome and value that disagree are recheck. Nothing is ever converted.",
            "none: no cut-offs unless set",
            "Cut-offs belong to an assay (blood plate assay pregnant > 0.30; milk open < 0.10, pregnant > 0.25 on laboratory sheets); exact ties are undefined in the sources: to recheck by own policy.", OwnPolicy),
        new("T9", "Results are facts: replaced by source and sourceId, withdrawn by id, and the calendar follows.",
            null, None, Definition),
    ];

    private static IReadOnlyList<Rule> ConflictRules =>
    [
        new("T7 a", "Open after pregnant without a recorded loss. A second sample decides, or an examination.",
            "confirm: 7 days later", None, OwnPolicy),
        new("T7 b", "Service, oestrus or a new exposure after pregnant; or pregnant when the old services were failed and only a newer one is left. A sample decides from T1 after the later service or exposure, after oestrus 7 days later.",
            null, None, OwnPolicy),
        new("T7 c", "Pregnant without a service or exposure on record. A sample decides 7 days later.",
            null, None, OwnPolicy),
        new("T7 d", "Results of one class for one sample day that disagree. Only an examination decides.",
            null, None, OwnPolicy),
        new("T7 e", "Calving while open. An examination or a person's word (F6) ends it.",
            null, None, OwnPolicy),
        new("T7 f", "Calving fewer than 260 days after the day that dates a pregnancy, or fewer than 200 days after the latest service. An examination or a person's word (F6) ends it.",
            null, None, OwnPolicy),
        new("T7 g", "Prostaglandin recorded while she was neither open nor not served: an alarm. Blood tells from 21 days later.",
            null, "Induced loss on day 39: like open cows by 9.5 days (Giordano et al. 2012); 21 days leaves room for 8.4-40 ng/mL at a half-life of 1.8-6.6 days (Lobago et al. 2006).", OwnPolicy),
        new("T7 h", "A loss recorded without an examination. A sample decides from T3.",
            null, "Detection of a loss on the day itself is poor (Ergene et al. 2019).", OwnPolicy),
    ];
}
