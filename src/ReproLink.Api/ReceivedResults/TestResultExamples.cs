namespace ReproLink.Api.ReceivedResults;

/// <summary>Examples of the document; a test posts the bodies.</summary>
internal static class TestResultExamples
{
    public const string Batch = """
        [{"sourceId":"lab-77-001","animal":"1042","tube":"R12-003","sampled":"2026-10-08","reported":"2026-10-09T15:00:00Z",
          "method":"blood","specimen":"serum","outcome":"open","value":0.12,"unit":"S-N","assay":"herd-default"}]
        """;

    public const string Csv = """
        sourceId,animal,tube,sampled,outcome
        lab-77-001,1042,R12-003,2026-10-08,open
        """;

    public const string Answers = """
        {"results":[
          {"sourceId":"lab-77-001","status":"accepted","factId":"f_0c5t9x2m7h1ka","animal":"1042","decides":"open","warnings":[],
           "reasons":[{"rule":"T5","text":"open: the service of 10 September 2026 failed","facts":["f_0c5t9x2m7h1ka"]}]},
          {"sourceId":"lab-77-002","status":"held","heldId":"h_0c5t9x2m7h1ka","reason":"unknown-animal"}]}
        """;

    public const string Preview = """
        {"counts":{"received":1,"accepted":0,"duplicate":0,"held":1,"rejected":0},
         "lines":[{"text":"77-002;9999;;08/10/2026;NOT PREG","read":{"sourceId":"77-002","animal":"9999","sampled":"2026-10-08","outcome":"open"},
           "result":{"line":2,"sourceId":"77-002","status":"held","reason":"unknown-animal"}}]}
        """;
}
