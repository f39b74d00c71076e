namespace ReproLink.Api.Rounds;

/// <summary>Examples of the document.</summary>
internal static class RoundExamples
{
    private const string Counts = """{"tubes":2,"planned":1,"drawn":1,"short":0,"notDrawn":0,"broken":0,"toDispatch":1,"answered":0}""";

    private const string Tube = """
        {"tube":"R12-001","animal":"1042","pen":"4","state":"drawn","need":"first-test","daysPostService":28,"date":"2026-10-08","time":"06:41","by":"Ana"}
        """;

    private const string Head =
        $$"""
        "round":"R12","date":"2026-10-08","name":"Thursday","specimen":"serum","state":"drawing","counts":{{Counts}},
        "created":"2026-10-08T10:00:00Z","createdBy":"farm"
        """;

    public const string Page = $$"""{"rounds":[{ {{Head}} }]}""";

    public const string Detail =
        $$"""
        { {{Head}},"herd":"North Ridge",
         "tubes":[{{Tube}},{"tube":"R12-002","animal":"1043","pen":"4","state":"planned","need":"resample","daysPostService":40}],"dispatches":[],
         "supplies":{"needles":3,"tubes":3,"labels":1,"sharpsContainers":1},
         "checklist":[{"when":"each-cow","text":"Label the tube before the next cow comes.","basis":"common practice of diagnostic laboratories"}]}
        """;

    public const string Mark = $$"""{"tube":{{Tube}},"next":"R12-002","counts":{{Counts}},"warnings":[]}""";

    public const string Dispatch =
        $$"""
        {"round":"R12","dispatch":1,"at":"2026-10-08T15:00:00Z","by":"Ana","tubes":[{{Tube}}],
         "expectedReport":{"date":"2026-10-09","time":"17:00"},"warnings":[]}
        """;
}
