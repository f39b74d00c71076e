namespace ReproLink.Api.Protocols;

/// <summary>Examples of the document.</summary>
internal static class ProtocolExamples
{
    private const string Steps = """
        "steps":[{"id":"gnrh-1","kind":"gnrh","days":0,"gated":false,"earlyHours":72,"lateHours":72,"ifLate":"lapse"},
          {"id":"pgf-1","kind":"pgf","anchor":"gnrh-1","days":7,"gated":true,"earlyHours":24,"lateHours":24,"ifLate":"lapse"},
          {"id":"gnrh-2","kind":"gnrh","anchor":"pgf-1","hours":56,"gated":true,"earlyHours":8,"lateHours":16,"ifLate":"lapse"},
          {"id":"inseminate","kind":"inseminate","anchor":"gnrh-2","hours":16,"gated":true,"earlyHours":8,"lateHours":8,"ifLate":"lapse"}]
        """;

    public const string One = """
        {"id":"ovsynch-56","name":"Ovsynch-56","animalClass":"dairy-cow","use":"either","selectable":true,"mayStartBeforeResult":true,
         "startSession":"morning","source":"Brusveen et al. 2009 J Dairy Sci","evidence":"seen",
        """ + Steps + "}";

    public const string List = "{\"protocols\":[" + One + "],\"cautions\":[\"Prostaglandin ends a pregnancy.\"]}";

    public const string Own = """
        {"schema":1,"id":"north-ridge-56","name":"North Ridge 56","animalClass":"dairy-cow","use":"either","evidence":"common-practice",
         "source":"order of the herd's veterinarian, 1 September 2026",
        """ + Steps + "}";

    public const string OwnAnswer = """
        {"id":"north-ridge-56","name":"North Ridge 56","animalClass":"dairy-cow","use":"either","own":true,"selectable":true,"mayStartBeforeResult":true,
         "startSession":"morning","source":"order of the herd's veterinarian, 1 September 2026","evidence":"common-practice",
        """ + Steps + "}";
}
