namespace ReproLink.Calendar.Figures;

/// <summary>Every figure and its definition. Two published definitions that disagree are never mixed: the rule is named.</summary>
public static class FigureBook
{
    private const string Common = "Common practice.";

    /// <summary>The figures in the order in which they are shown.</summary>
    public static IReadOnlyList<FigureDefinition> All { get; } =
    [
        Service("conception-risk", "Conception risk",
            "Services by which the cow became pregnant, of the services of cows in the period whose outcome is known. A service is open when a test or examination says so, when she is served again 4 days later or more, or when she calves from another; else its outcome is not known.",
            "A service without an answer is left out, never counted as open; so is one too recent for its answer, whatever is known: an early return would be known first. Pregnancies lost later count: this is the share at the day of the test. Heifers stand apart."),
        Service("conception-risk-heifers", "Conception risk of heifers", "The same for heifers.", "Not comparable with cows."),
        Service("conception-risk-by-service", "Conception risk by service number", "The same by the service's number in the lactation.", "Later numbers are other cows, not the same cows later."),
        Service("conception-risk-by-protocol", "Conception risk by protocol", "The same by the protocol whose planned insemination it was; other services are those on observed oestrus or outside any plan.", "Cows are not put on protocols by lot: a difference need not be the protocol's."),
        Service("conception-risk-by-sire", "Conception risk by sire", "The same by sire.", "Few services say little: look at the interval."),
        Service("conception-risk-by-technician", "Conception risk by technician", "The same by who did it.", "Few services say little: look at the interval."),
        Service("conception-risk-by-parity", "Conception risk by parity", "The same by lactation.", "Parity as recorded; not on record stands apart."),
        Service("conception-risk-by-weekday", "Conception risk by weekday", "The same by the weekday of the service.", "Seven comparisons at once: one of them looks odd by chance."),
        Service("conception-risk-by-month", "Conception risk by month", "The same by the month of the service.", "The last months wait for answers."),
        Service("services-per-conception", "Services per conception",
            "of-pregnant: services of the lactations that are pregnant, for each of them. found: all services with a known outcome, for each pregnancy found. kept: all services that are not too recent, for each pregnancy kept.",
            "of-pregnant hides the cows that never conceived. Interval: reciprocal of the Wilson interval of pregnancies by services."),
        Service("service-intervals", "Days between services",
            "Services of one lactation that follow another, by the days between the two. Inseminations at most 3 days apart are one service, dated by the last; how many were such repeats stands in the line up-to-3.",
            "18-24 days is one cycle; 36-48 days suggests a missed oestrus; a test-driven programme moves intervals to its own length.", "Classes after Remnant 2019 (thesis, 167 herds), the first split at 3 days."),

        new("service-rate", FigureSection.Cycles, "21-day service rate", "A",
            "Of the cows to be served in a 21-day cycle (11 days of it or more), those served on such a day. A day counts from the end of the waiting period on unless she is away, not to be bred, pregnant, with a bull, or served without a known outcome; a service inside the cycle does not end her days in it.",
            "Cycles begin on the first day of the period. Pending cycles are in no total.", "Nebel 2003 and Stevenson, extension papers; more than half of the days: recalled, and by rounding in a California project."),
        new("pregnancy-rate", FigureSection.Cycles, "21-day pregnancy rate", "A",
            "Of the same cows whose outcome is known, those that conceived in the cycle. Not served is a known outcome; served without an answer is left out. Sum of pregnancies by sum of cow-cycles.",
            "Never compare with a rate by rule B. Service rate × conception risk is only near it. A pregnancy lost later counts in its cycle.", "VanRaden et al. 2004, J Dairy Sci 87:2285 (same idea); Nebel 2003."),
        new("pregnancy-rate-own-cycles", FigureSection.Cycles, "Pregnancy rate by each cow's own cycles", "B",
            "Pregnancies kept, by 21-day cycles counted for each cow from the end of her waiting period: the cycle of the conception is the last; without one the days are rounded to whole cycles. Lactations that began in the period.",
            "Far lower than rule A in the same herd: never compare the two.", "Worked examples of a California demonstration project."),

        Lactation("first-cycle-submission", "Served in the first 21 days", "Of the cows that came to 20 days after the waiting period, those served in the 21 days from its end.", "Served earlier counts as not served in time, unless she was pregnant by it.", "Ferguson and Skidmore 2013, J Dairy Sci 96:1269; their exact window not read."),
        Lactation("days-to-first-service", "Days to first service", "First service − calving, of the cows that were served.", "Cows never served are left out and counted beside it."),
        Lactation("days-open", "Days open", "all: conception of the pregnancy that was kept − calving, of the cows that are pregnant. so-far: these, and today − calving of the cows that may still become pregnant.",
            "Blind to cows that left; all is blind to cows that never conceive too: read it with days to pregnancy."),
        Lactation("calving-interval", "Calving interval", "calved: next calving − calving. due: due day − calving, of the cows that are pregnant now; the due day by breed (5.8).",
            "calved looks far back; neither sees cows that never calve again."),
        Lactation("days-to-pregnancy", "Pregnant by days in milk, if none had left", "1 − survival by Kaplan and Meier, of all lactations that began in the period. Leaving, not to be bred, a bull, an unanswered service and today end the looking. Denominator: lactations; numerator: pregnancies kept by that day.", "Says what would be if no cow left; higher than the share that really was pregnant.", "Kaplan and Meier 1958; interval log-log."),
        Lactation("pregnant-or-gone", "Pregnant, and gone, by days in milk", "Cumulative incidence by Aalen and Johansen: pregnant, against left or not to be bred, as they really came.", "The two and the still open add up to 1.", "Aalen and Johansen 1978; jackknife standard error, log-log interval."),
        Lactation("pregnant-by-reached", "Pregnant by days in milk, simple share", "Of the lactations that began that many days ago or more, those that conceived by then.", "Leavers count as not pregnant. Unanswered services are left out."),

        Test("outcomes-by-day", "Test outcomes by days post-service", "Blood and milk results with the sample in the period, by days since the latest service, and what they said.", "Results too early to decide are shown all the same."),
        Test("inconclusive", "Share of inconclusive tests", "Inconclusive, of the results that were pregnant, open or inconclusive.", "Spoiled samples are left out and counted beside it."),
        Test("inconclusive-became", "What became of inconclusive tests", "Of the inconclusive results of the period, by the next thing that decided.", "Undecided is not open."),
        Test("agreement", "Blood against examination", "Samples old enough to count that an examination followed within 14 days, no service between: the examination taken as right. Sensitivity: of the pregnant, found so by the test. Specificity: of the open. Predictive values: of the test's answers, right. Strict: inconclusive counted against the test.",
            "Predictive values hold at this herd's share of pregnant cows only. Animals are not examined by lot. A pregnancy lost between the two looks like a false positive. Kappa is low where one answer is rare.", "Definitions: Altman and Bland 1994. 14 days: own policy."),
        Test("loss", "Pregnant, then open", "early: found before day 60 post-service and looked at again by day 120: no longer pregnant. late: still pregnant on days 60-120 and looked at again from day 180, or calved: no longer pregnant by day 260.",
            "A loss, or a test that was wrong: records cannot tell the two apart. Pregnancies not looked at again are left out."),

        Work("service-to-open", "From service to known open to next service", "Services of the period found open by a test or examination: days until that was known, from then to the next service, and both together.", "Cows served on oestrus before the answer are left out, and services too recent for their answer."),
        Work("steps", "Steps done", "Planned steps of the period, by what was recorded: on time, late, taken as done (the programme assumes unrecorded steps), missed, reported as not done.", "Steps that fell away or were withheld are left out: withholding is no omission."),
    ];

    /// <summary>The definition of an id; null = there is none.</summary>
    public static FigureDefinition? Find(string id) => All.FirstOrDefault(d => d.Id == id);

    internal static FigureDefinition Get(string id) => Find(id) ?? throw new ArgumentException($"no figure {id}", nameof(id));

    private static FigureDefinition Service(string id, string name, string sentence, string trap, string source = Common) =>
        new(id, FigureSection.Services, name, "services", sentence, trap, source);

    private static FigureDefinition Lactation(string id, string name, string sentence, string trap, string source = Common) =>
        new(id, FigureSection.Lactations, name, "lactations", sentence, trap, source);

    private static FigureDefinition Test(string id, string name, string sentence, string trap, string source = Common) =>
        new(id, FigureSection.Tests, name, "tests", sentence, trap, source);

    private static FigureDefinition Work(string id, string name, string sentence, string trap, string source = "Definition of our own.") =>
        new(id, FigureSection.Work, name, "work", sentence, trap, source);
}
