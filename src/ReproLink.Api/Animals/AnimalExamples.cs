namespace ReproLink.Api.Animals;

/// <summary>Examples of the document.</summary>
internal static class AnimalExamples
{
    public const string Window = """
        {"animal":"1042","on":"2026-10-05","asOf":"2026-10-05","knownAt":"2026-10-05T12:00:00Z","status":"awaiting-test","answer":"not-yet","reason":"T1",
         "need":"first-test","overdue":false,"changesOn":"2026-10-08",
         "window":{"opens":"2026-10-08","target":"2026-10-08","closes":"2026-10-08","changesOn":"2026-10-08"},
         "reasons":[{"rule":"T1","date":"2026-10-08","text":"28 days after the service of 10 September 2026","facts":["f_0c5t9x2m7h1ka"]}],
         "candidates":[{"rule":"T1","bound":"opens","date":"2026-10-08","text":"28 days after the service of 10 September 2026","facts":["f_0c5t9x2m7h1ka"]},
                       {"rule":"T2","bound":"opens","date":"2026-08-30","text":"60 days in milk, calved on 1 July 2026","facts":["f_1c5t9x2m7h1ka"]}],
         "limits":[{"rule":"W2","bound":"closes","date":"2026-10-08","text":"last draw whose answer is back for the step of 12 October 2026","facts":[]}],
         "gate":{"pgf":{"allowed":false,"clause":"not-open","text":"she is not known to be open"}},
         "plan":[{"step":"gnrh","date":"2026-10-05","time":"07:00","state":"firm"},{"step":"pgf","date":"2026-10-12","time":"07:00","state":"conditional"}],
         "cautions":["Prostaglandin (pgf) ends a pregnancy. Prescription only, on a veterinarian's order."]}
        """;

    public const string Timeline = """
        {"animal":"1042","asOf":"2026-10-05","knownAt":"2026-10-05T12:00:00Z","status":"awaiting-test","registered":false,
         "facts":[{"factId":"f_0c5t9x2m7h1ka","source":"herd-app","sourceId":"s-1","kind":"insemination","animal":"1042","date":"2026-09-10","recordedAt":"2026-09-10T14:00:00Z"}],
         "statuses":[{"from":"2026-09-10","status":"awaiting-test","fact":"f_0c5t9x2m7h1ka"}],
         "results":[],"warnings":[],"conflicts":[],"plan":[],
         "cautions":["Prostaglandin (pgf) ends a pregnancy. Prescription only, on a veterinarian's order."]}
        """;
}
