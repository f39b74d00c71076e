namespace ReproLink.Api.Facts;

/// <summary>Examples of the document; a test posts the bodies.</summary>
internal static class FactExamples
{
    public const string Batch = """
        [
         {"sourceId":"a-1","kind":"animal","animal":"1042","born":"2022-03-01","breed":"Holstein","parity":1,"pen":"4","identifiers":[{"scheme":"us.bovine","id":"840003123456789"}]},
         {"sourceId":"c-1","kind":"calving","animal":"1042","date":"2026-07-01"},
         {"sourceId":"s-1","kind":"insemination","animal":"1042","date":"2026-09-10","time":"08:00","sire":"B77","sireBreed":"Angus"}
        ]
        """;

    public const string Csv = """
        sourceId,kind,animal,date,time,parity,identifiers
        a-1,animal,1042,,,1,us.bovine=840003123456789
        c-1,calving,1042,2026-07-01,,,
        s-1,insemination,1042,2026-09-10,08:00,,
        """;

    public const string Results = """
        {"results":[
          {"sourceId":"a-1","status":"accepted","factId":"f_0c5t9x2m7h1ka","warnings":[]},
          {"sourceId":"c-1","status":"rejected",
           "problem":{"type":"/problems/invalid-value","title":"A value is not allowed","detail":"'date' is \"2026-02-30\"; allowed: a date that exists, YYYY-MM-DD.",
                      "pointer":"/1/date","field":"date","value":"2026-02-30","allowed":"a date that exists, YYYY-MM-DD"}}]}
        """;

    public const string Page = """
        {"facts":[{"factId":"f_0c5t9x2m7h1ka","source":"herd-app","sourceId":"c-1","kind":"calving","animal":"1042","date":"2026-07-01","recordedAt":"2026-07-01T09:00:00Z"}]}
        """;

    public const string Preview = """
        {"counts":{"received":1,"accepted":1,"replaced":0,"duplicate":0,"rejected":0,"linesLeftOut":1},
         "facts":[{"text":"1042;Served;10/09/2026;B77","read":{"animal":"1042","date":"2026-09-10","kind":"insemination","sire":"B77","source":"herd-book","sourceId":"insemination-2f6c1d0a9b3e4f57"},
           "result":{"line":2,"sourceId":"insemination-2f6c1d0a9b3e4f57","status":"accepted","warnings":[]}}],
         "leftOut":[{"line":3,"text":"1043;Hoof trim;06/10/2026;","reason":"The mapping leaves out 'Hoof trim'."}],"unreadColumns":["Operator"]}
        """;
}
