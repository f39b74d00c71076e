using System.Text.Json;
using ReproLink.Api.Access;
using ReproLink.Api.Composition;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Facts;

/// <summary>How the herd files of each sender are read.</summary>
internal static class FactMappingEndpoints
{
    /// <summary>A line an event.</summary>
    public const string Example = """
        {"columns":{"animal":"Cow","date":"Day"},"eventColumn":"What",
         "facts":[{"events":["Calved"],"kind":"calving"},
                  {"events":["Served"],"kind":"insemination","columns":{"sire":"Detail"}},
                  {"events":["Scanned"],"kind":"examination","columns":{"outcome":"Detail"},"fixed":{"method":"ultrasound"},
                   "words":{"outcome":{"in calf":"pregnant","empty":"open"}}}],
         "leaveOut":["Hoof trim"],"empty":["-"],"dates":["dd/MM/yyyy"],"delimiter":";","letters":"windows-1252"}
        """;

    private static readonly string Saved = Example.Insert(1, "\"sender\":\"herd-book\",\"version\":1,\"saved\":\"2026-10-05T12:00:00Z\",\"savedBy\":\"farm\",");

    public static void MapFactMappings(this IEndpointRouteBuilder herd)
    {
        herd.MapPut("/fact-mappings/{sender}", Put)
            .WithMetadata(new Needs(Permissions.Manage))
            .Describe("Facts", "putFactMapping", "Say how a sender's herd files are read", """
                Saves which of a sender's columns is which property of which fact: a line an animal, with a date for each of several facts, or a line an
                event, with a word that says what happened. Try it with POST /facts/preview before a file is taken in. Without a column for `sourceId` a
                fact is identified by all that is said of it, and the card of an animal by the animal. Manager.
                """)
            .Reads(typeof(FactMappingInput), "The mapping.", Example)
            .AnswersJson(200, "It is saved.", typeof(FactMappingAnswer), Saved)
            .Refuses(400, 413, 415);
        herd.MapGet("/fact-mappings/{sender}", Get)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe("Facts", "getFactMapping", "How a sender's herd files are read", "The mapping that counts.")
            .AnswersJson(200, "The mapping.", typeof(FactMappingAnswer), Saved)
            .Refuses(400, 404);
    }

    public static Problem NoMapping(string sender) =>
        Problem.Of(ProblemTypes.MappingNotFound, $"No mapping of herd files was saved for the sender '{sender}': PUT /fact-mappings/{sender} first.");

    private static async Task<IResult> Put(HttpContext context, Store store, string sender)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var reader = new ObjectReader(body.Root, new FieldProblems());
        var input = FactMappingReader.Read(reader);
        if (!TextRule.Name.Accepts(sender) || sender == Calendar.Rounds.Storage.Source)
        {
            reader.Problems.Add(ProblemTypes.InvalidValue, "sender", sender, TextRule.Name.Allowed, $"The sender in the address is not allowed; allowed: {TextRule.Name.Allowed}, but not '{Calendar.Rounds.Storage.Source}'.");
        }

        if (reader.Problems.Any)
        {
            return Problem.OfBody(reader.Problems.List);
        }

        var request = context.Herd();
        return Results.Ok(Answer(await store.FactMappings.Save(request.Herd, sender, JsonSerializer.Serialize(input, JsonSetup.Options), request.Caller.Name, request.Now)));
    }

    private static IResult Get(HttpContext context, Store store, string sender)
    {
        if (new QueryReader(context).Done() is { } refusal)
        {
            return refusal;
        }

        return store.FactMappings.Find(context.Herd().Herd, sender) is { } saved ? Results.Ok(Answer(saved)) : NoMapping(sender);
    }

    private static FactMappingAnswer Answer(SavedMapping saved)
    {
        var input = JsonSerializer.Deserialize<FactMappingInput>(saved.Json, JsonSetup.Options)!;
        return new FactMappingAnswer
        {
            Sender = saved.Sender,
            Version = saved.Version,
            Saved = saved.Saved,
            SavedBy = saved.SavedBy,
            Columns = input.Columns,
            EventColumn = input.EventColumn,
            Facts = input.Facts,
            LeaveOut = input.LeaveOut,
            Empty = input.Empty,
            Dates = input.Dates,
            Decimal = input.Decimal,
            Delimiter = input.Delimiter,
            Letters = input.Letters,
        };
    }
}
