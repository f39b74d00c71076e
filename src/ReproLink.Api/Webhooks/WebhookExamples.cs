namespace ReproLink.Api.Webhooks;

/// <summary>Examples of the document; a test posts the bodies.</summary>
internal static class WebhookExamples
{
    public const string Input = """{"url":"https://herd.example/hooks/reprolink","name":"Herd software","kinds":["fact","withdrawal"]}""";

    public const string Update = """{"state":"paused"}""";

    public const string Rotation = """{"overlapHours":24}""";

    public const string One = """
        {"webhook":1,"url":"https://herd.example/hooks/reprolink","name":"Herd software","kinds":["fact","withdrawal"],"state":"active",
         "created":"2026-10-05T12:00:00Z","createdBy":"herd-app"}
        """;

    public const string Paused = """
        {"webhook":1,"url":"https://herd.example/hooks/reprolink","name":"Herd software","kinds":["fact","withdrawal"],"state":"paused",
         "created":"2026-10-05T12:00:00Z","createdBy":"herd-app"}
        """;

    public const string WithSecret = """
        {"webhook":1,"url":"https://herd.example/hooks/reprolink","name":"Herd software","kinds":["fact","withdrawal"],"state":"active",
         "created":"2026-10-05T12:00:00Z","createdBy":"herd-app","secret":"whsec_C2FVsBQIhrscChlQIMV+b5sSYspob7oD"}
        """;

    public const string List = "{\"webhooks\":[" + One + "]}";

    public const string Delivery = """
        {"id":"msg_4f9d2a71c3b84e06a5d1e2f3b4c5d6e7","type":"herd.changed","created":"2026-10-05T12:00:00Z","state":"waiting","nextAttempt":"2026-10-05T12:00:05Z",
         "attempts":[{"attempt":1,"at":"2026-10-05T12:00:00Z","milliseconds":84,"status":500,"error":"The receiver answered 500."}],
         "body":"{\"type\":\"herd.changed\",\"timestamp\":\"2026-10-05T12:00:00Z\",\"data\":{\"location\":{\"scheme\":\"farm\",\"id\":\"north-ridge\"},\"webhook\":1,\"after\":\"p1e\",\"cursor\":\"p1f\",\"counts\":{\"fact\":1},\"changes\":[{\"cursor\":\"p1f\",\"kind\":\"fact\",\"animal\":\"1042\",\"factId\":\"f_0c5t9x2m7h1ka\"}]}}"}
        """;

    public const string Test = """
        {"id":"msg_4f9d2a71c3b84e06a5d1e2f3b4c5d6e7","type":"webhook.test","created":"2026-10-05T12:00:00Z","state":"waiting","nextAttempt":"2026-10-05T12:00:00Z","attempts":[],
         "body":"{\"type\":\"webhook.test\",\"timestamp\":\"2026-10-05T12:00:00Z\",\"data\":{\"location\":{\"scheme\":\"farm\",\"id\":\"north-ridge\"},\"webhook\":1}}"}
        """;

    public const string Page = "{\"deliveries\":[" + Delivery + "],\"next\":\"p1f\"}";

    public const string Message = """
        {"type":"herd.changed","timestamp":"2026-10-05T12:00:00Z",
         "data":{"location":{"scheme":"farm","id":"north-ridge"},"webhook":1,"after":"p1e","cursor":"p1f","counts":{"fact":1},
                 "changes":[{"cursor":"p1f","kind":"fact","animal":"1042","factId":"f_0c5t9x2m7h1ka"}]}}
        """;
}
