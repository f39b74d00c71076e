namespace ReproLink.Api.Programmes;

/// <summary>Examples of the document; a test sends them.</summary>
internal static class ProgrammeExamples
{
    /// <summary>Every property with its default; the last group is off unless present.</summary>
    public const string Settings = """
        "inForceFrom":"2026-09-01",
         "test":{"assay":"herd-default","method":"blood","minDaysPostService":28,"targetDaysPostService":32,"overdueDaysPostService":45,
                 "minDaysInMilk":60,"cautionDaysInMilk":90,"clearanceEarlyLoss":14,"clearanceLateLoss":60,"lateLossFromDay":60,
                 "resampleAfterDays":7,"resampleWithinDays":14,"openAfterPregnant":"confirm","testDoNotBreed":false,
                 "cutOffs":{"openBelow":0.21,"pregnantAbove":0.30,"unit":"S-N"}},
         "confirmations":[{"from":74,"to":90,"method":"blood"},{"from":200,"to":220,"method":"blood"}],
         "week":{"samplingDays":["monday","thursday"],"startDays":["monday"],"morning":"07:00","afternoon":"16:00",
                 "workingHours":{"from":"05:00","to":"20:00"},"closedDates":["2026-12-25"],"maxTubesPerDay":150},
         "laboratory":{"kind":"laboratory","dispatchDays":["monday","tuesday","wednesday","thursday"],"transitDays":1,
                       "workingDays":["monday","tuesday","wednesday","thursday","friday"],"turnaroundWorkingDays":0,"reportTime":"17:00","closedDates":[]},
         "resynchronisation":{"protocol":"ovsynch-56","protocolHeifer":"cosynch-5d-insert-dairy-heifer","start":"before-result","startDay":25},
         "firstService":{"voluntaryWaitingPeriodDays":60,"protocol":"double-ovsynch-56","startDays":["friday"]},
         "pregnancy":{"dryOffDaysBeforeDue":60},
         "recording":"assumed","requireRounds":false
        """;

    public const string Programme = "{" + Settings + "}";

    public const string Answer = """{"version":3,"state":"saved","savedBy":"manager","savedAt":"2026-08-30T09:00:00Z","approved":false,"approvals":[],""" + Settings + "}";

    public const string Versions = "{\"versions\":[" + Answer + "]}";

    public const string Saved = """{"version":3,"state":"saved","findings":[]}""";

    public const string Approval = """{"version":3,"expires":"2027-09-01"}""";

    public const string Approved = """{"version":3,"approvedBy":"veterinarian","approvedAt":"2026-08-31T10:00:00Z","expires":"2027-09-01"}""";

    public const string Refusal = """{"version":3,"note":"The second dose of prostaglandin falls on a Sunday."}""";

    public const string Refused = """
        {"version":3,"refusedBy":"veterinarian","refusedAt":"2026-08-31T10:00:00Z","note":"The second dose of prostaglandin falls on a Sunday."}
        """;
}
