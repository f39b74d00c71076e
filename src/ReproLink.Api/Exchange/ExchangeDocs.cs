using ReproLink.Api.Access;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Transfer;

namespace ReproLink.Api.Exchange;

/// <summary>Mark of an endpoint whose refusals have the standard's form, for the document.</summary>
internal sealed record StandardForm;

/// <summary>What the document says of the standard's addresses.</summary>
internal static class ExchangeDocs
{
    public const string Tag = "Exchange standard";

    private const string Location = """
        "location":{"scheme":"farm","id":"north-ridge"}
        """;

    private const string Animal = """
        "animal":{"scheme":"us.bovine","id":"840003123456789"}
        """;

    private const string BatchExample = """
        [{"id":"f_0c5t9x2m7h1ka","meta":{"source":"org.example.herd","sourceId":"s-1","modified":"2026-10-05T12:00:00Z"}},
         {"meta":{"source":"org.example.herd","sourceId":"s-2","modified":"2026-10-05T12:00:00Z"},
          "messages":[{"type":"/problems/missing-property","severity":"Error","status":400,"title":"A required property is missing",
            "detail":"'eventDateTime' is missing; allowed: an instant with its zone, e.g. 2026-10-05T12:00:00Z.","instance":"/eventDateTime"}]}]
        """;

    private const string WaitsExample = """
        {"id":"h_0c5t9x2m7h1ka","meta":{"source":"org.example.laboratory","sourceId":"77","modified":"2026-10-05T12:00:00Z"},
         "messages":[{"severity":"Warning","title":"The result waits","detail":"It is stored and waits for a person (unknown-animal); no animal it may mean is released for prostaglandin meanwhile."}]}
        """;

    public static void DescribeList(this RouteHandlerBuilder endpoint, EventNoun noun) => endpoint
        .Describe(Tag, "list" + Plural(noun), $"List {noun.Path}", noun.Description)
        .Lists(noun.Page, $$"""{"view":{"pageSize":100},"member":[{{Example(noun, sent: false)}}]}""");

    /// <summary>Reads a page of a location's messages with the standard's parameters.</summary>
    public static void Lists(this RouteHandlerBuilder endpoint, Type page, string example) => endpoint
        .WithMetadata(new Needs(Permissions.Read))
        .Takes(new ParameterDoc("animal-scheme", "Only this animal's; with `animal-id`.", "us.bovine"))
        .Takes(new ParameterDoc("animal-id", "Only this animal's, by any identifier she carries; with `animal-scheme`.", "840003123456789"))
        .Pages(page, example);

    /// <summary>Reads a page of any collection.</summary>
    public static void Pages(this RouteHandlerBuilder endpoint, Type page, string example) => endpoint
        .WithMetadata(new StandardForm())
        .Tags()
        .TakesInstant("meta-modified-from", "Modified then or later, deleted ones too; any offset may be written. Absent = all that count.")
        .TakesInstant("meta-modified-to", "Modified then or earlier.")
        .Takes(new ParameterDoc("page-size", "Most messages of a page, 1 to 1000; absent = 100.", "100", "integer"))
        .Takes(new ParameterDoc("cursor", "Stands in `view.next`; follow that address as it is.", ""))
        .AnswersJson(200, "A page, in the order of `meta.modified`. Follow `view.next` to the end.", page, example)
        .Refuses(400);

    public static void DescribeGet(this RouteHandlerBuilder endpoint, EventNoun noun)
    {
        endpoint
            .WithMetadata(new Needs(Permissions.Read), new StandardForm())
            .Tags()
            .Describe(Tag, "get" + Singular(noun), $"One {noun.Word}", $"The {noun.Word} at its `@self` address; one that was taken back reads as deleted.")
            .AnswersJson(200, $"The {noun.Word}.", noun.Message, Example(noun, sent: false));
        if (noun.IsResult)
        {
            endpoint.AnswersJson(202, "It waits for a person, or for its animal to appear.", typeof(BatchResult), WaitsExample);
        }
    }

    public static void DescribePost(this RouteHandlerBuilder endpoint, EventNoun noun) => endpoint
        .WithMetadata(new Needs(noun.Posts), new StandardForm())
        .Describe(Tag, "post" + Singular(noun), $"Send one {noun.Word}", noun.Description + """

            `meta.source` and `meta.sourceId` say which it is, and are the same identity as in `POST /facts`: sent again with the same content nothing happens,
            with other content it is replaced, with `meta.isDeleted` it is taken back. Unknown properties are passed over; null is absent.
            """)
        .Reads(noun.Message, $"The {noun.Word}.", Example(noun, sent: true))
        .AnswersJson(200, $"The {noun.Word} as stored.", noun.Message, Example(noun, sent: false))
        .AnswersJson(202, "It waits, or there was nothing to take back; `Location` says where to look.", typeof(BatchResult), WaitsExample)
        .Refuses(400, 413, 415);

    public static void DescribeBatch(this RouteHandlerBuilder endpoint, EventNoun noun) => endpoint
        .WithMetadata(new Needs(noun.Posts), new StandardForm())
        .Describe(Tag, $"post{Singular(noun)}Batch", $"Send {noun.Path}", """
            A bare array of up to 10,000 messages. Every item is answered, in order: the good ones are stored, the others tell what is wrong. Of two items with one
            identity the last counts.
            """)
        .Reads(typeof(IReadOnlyList<>).MakeGenericType(noun.Message), "The messages.", $"[{Example(noun, sent: true)}]")
        .AnswersJson(200, "The array was understood; one answer an item.", typeof(IReadOnlyList<BatchResult>), BatchExample)
        .Refuses(400, 413, 415);

    private static string Example(EventNoun noun, bool sent)
    {
        var animal = noun.AnimalProperty == "animal" ? Animal.Trim() + "," : "";
        var meta = $$"""
            "meta":{"source":"org.example.herd","sourceId":"s-1","modified":"2026-10-05T12:00:00Z"}
            """.Trim();
        var id = sent || noun.AnimalProperty != "animal" ? "" : "\"id\":\"f_0c5t9x2m7h1ka\",";
        var location = sent ? "" : Location.Trim() + ",";
        return $$"""{"resourceType":"{{noun.ResourceType}}",{{id}}{{meta}},{{location}}{{animal}}{{noun.Example.Trim()}}}""";
    }

    private static string Plural(EventNoun noun) => Pascal(noun.Path);

    private static string Singular(EventNoun noun) => Pascal(noun.Word.Replace(' ', '-'));

    private static string Pascal(string words) =>
        string.Concat(words.Split('-').Select(word => char.ToUpperInvariant(word[0]) + word[1..]));
}
