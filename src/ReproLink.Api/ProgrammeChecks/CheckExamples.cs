namespace ReproLink.Api.ProgrammeChecks;

/// <summary>Examples of the document.</summary>
internal static class CheckExamples
{
    public const string Answer = """
        {"feasible":true,
         "chains":[{"from":"service","weekday":"thursday","date":"2026-10-08","protocol":"ovsynch-56",
           "steps":[{"id":"gnrh-1","step":"gnrh","date":"2026-11-02","time":"07:00","gated":false},{"id":"pgf-1","step":"pgf","date":"2026-11-09","time":"07:00","gated":true}],
           "firstDraw":"2026-11-05","lastDraw":"2026-11-05","dispatched":"2026-11-05","result":"2026-11-06","resultTime":"17:00",
           "firstGated":{"id":"pgf-1","step":"pgf","date":"2026-11-09","time":"07:00","gated":true},"intervalDays":35,"slackDays":0,"slips":0}],
         "findings":[{"from":"service","weekday":"friday","problem":"slip","text":"the start slips 1 start day: no draw day in time for an earlier one",
           "suggestion":{"property":"week.samplingDays","value":"monday, thursday, friday","text":"draw blood on Friday as well"}}]}
        """;
}
