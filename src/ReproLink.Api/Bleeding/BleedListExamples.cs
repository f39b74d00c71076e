using ReproLink.Api.Explanations;

namespace ReproLink.Api.Bleeding;

/// <summary>Examples of the document.</summary>
internal static class BleedListExamples
{
    public const string Json = """
        {"herd":"North Ridge","asOf":"2026-10-05","knownAt":"2026-10-05T12:00:00Z","from":"2026-10-05","to":"2026-10-11",
         "days":[{"date":"2026-10-08","weekday":"thursday",
           "animals":[{"animal":"1042","pen":"4","identifiers":[],"daysPostService":28,"daysInMilk":99,"parity":1,
             "need":"first-test","window":{"opens":"2026-10-08","target":"2026-10-08","closes":"2026-10-08","changesOn":"2026-10-09"},"overdue":false,
             "serves":{"step":"pgf","date":"2026-10-12"},
             "reasons":[{"rule":"T1","date":"2026-10-08","text":"28 days after the service of 10 September 2026","facts":["f_0c5t9x2m7h1ka"]}]}],
           "totals":{"animals":1,"tubes":1,"labels":1,"needles":3}}],
         "notListed":[{"answer":"not-yet","reason":"T1","count":14},{"answer":"not-needed","reason":"confirmed-pregnant","count":80}],
         "cautions":["Prostaglandin (pgf) ends a pregnancy. Prescription only, on a veterinarian's order."]}
        """;

    public static readonly string Csv = $"""
        date,weekday,pen,animal,identifiers,daysPostService,daysInMilk,parity,need,opens,target,closes,changesOn,overdue,servesStep,servesDate,reasons,caution
        2026-10-08,thursday,4,1042,,28,99,1,first-test,2026-10-08,2026-10-08,2026-10-08,2026-10-09,false,pgf,2026-10-12,T1: 28 days after the service of 10 September 2026,"{CautionLine.Text}"
        """;
}
