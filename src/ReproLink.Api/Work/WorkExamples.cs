using ReproLink.Api.Explanations;

namespace ReproLink.Api.Work;

/// <summary>Examples of the document.</summary>
internal static class WorkExamples
{
    public const string Answer = """
        {"herd":"North Ridge","asOf":"2026-10-05","knownAt":"2026-10-05T12:00:00Z","from":"2026-10-05","to":"2026-10-18",
         "items":[{"id":"w_0c5t9x2m7h1ka","date":"2026-10-12","time":"07:00","kind":"step","step":"pgf","animal":"1042","pen":"4","state":"conditional",
           "plan":{"protocol":"ovsynch-56","anchor":"2026-09-10","startedOn":"2026-10-05"},"clause":"not-open",
           "reasons":[{"rule":"S5","text":"only if her result says open","facts":[]}]}],
         "totals":[{"date":"2026-10-12","animals":1,"doses":{"pgf":1},"tubes":0,"needles":1}],
         "cautions":["Prostaglandin ends a pregnancy."]}
        """;

    public static readonly string Csv = $"""
        id,date,time,session,kind,step,animal,pen,state,clause,protocol,startedOn,count,offHours,assumed,overdue,reasons,caution
        w_0c5t9x2m7h1ka,2026-10-12,07:00,,step,pgf,1042,4,conditional,not-open,ovsynch-56,2026-10-05,,false,false,false,S5: only if her result says open,"{CautionLine.Text}"
        """;
}
