using System.Text.Json;
using ReproLink.Api.Access;
using ReproLink.Api.Composition;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Intake;

/// <summary>How the files of each sender are read.</summary>
internal static class MappingEndpoints
{
    private const string Example = """
        {"columns":{"sourceId":"Lab no","animal":"Cow","tube":"Tube","sampled":"Drawn","outcome":"Result","value":"S-N"},
         "fixed":{"method":"blood","specimen":"serum","unit":"S-N","assay":"herd-default"},
         "outcomes":{"PREG":"pregnant","NOT PREG":"open","DOUBTFUL":"recheck","HAEMOLYSED":"invalid"},
         "dates":["dd/MM/yyyy"],"decimal":",","delimiter":";"}
        """;

    private static readonly string Saved = Example.Insert(1, "\"sender\":\"valley-laboratory\",\"version\":1,\"saved\":\"2026-10-05T12:00:00Z\",\"savedBy\":\"farm\",");

    public static void MapMappings(this IEndpointRouteBuilder herd)
    {
        herd.MapPut("/result-mappings/{sender}", Put)
            .WithMetadata(new Needs(Permissions.Manage))
            .Describe("Test results", "putResultMapping", "Say how a sender's files are read", """
                Saves which of a sender's columns is which property of a result, what their words mean and how they write dates and numbers. Try it with
                POST /test-results/preview before a file is taken in. Without a column for `sourceId` a line is identified by all it says. Without one for
                `sampled` the day is that of the tube. Manager.
                """)
            .Reads(typeof(MappingInput), "The mapping.", Example)
            .AnswersJson(200, "It is saved.", typeof(MappingAnswer), Saved)
            .Refuses(400, 413, 415);
        herd.MapGet("/result-mappings/{sender}", Get)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe("Test results", "getResultMapping", "How a sender's files are read", "The mapping that counts.")
            .AnswersJson(200, "The mapping.", typeof(MappingAnswer), Saved)
            .Refuses(400, 404);
    }

    private static async Task<IResult> Put(HttpContext context, Store store, string sender)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var (saved, refused) = await Save(store, context.Herd(), sender, new ObjectReader(body.Root, new FieldProblems()));
        return saved is null ? refused! : Results.Ok(Answer(saved));
    }

    /// <summary>Reads a mapping and saves it, or says what is wrong with it.</summary>
    public static async Task<(SavedMapping? Saved, Problem? Refusal)> Save(Store store, HerdRequest request, string sender, ObjectReader reader)
    {
        var input = Read(reader);
        if (!TextRule.Name.Accepts(sender))
        {
            reader.Problems.Add(ProblemTypes.InvalidValue, "sender", sender, TextRule.Name.Allowed, $"The sender in the address is not allowed; allowed: {TextRule.Name.Allowed}.");
        }

        return reader.Problems.Any
            ? (null, Problem.OfBody(reader.Problems.List))
            : (await store.ResultMappings.Save(request.Herd, sender, JsonSerializer.Serialize(input, JsonSetup.Options), request.Caller.Name, request.Now), null);
    }

    private static IResult Get(HttpContext context, Store store, string sender)
    {
        if (new QueryReader(context).Done() is { } refusal)
        {
            return refusal;
        }

        return store.ResultMappings.Find(context.Herd().Herd, sender) is { } saved ? Results.Ok(Answer(saved)) : NoMapping(sender);
    }

    public static Problem NoMapping(string sender) =>
        Problem.Of(ProblemTypes.MappingNotFound, $"No mapping was saved for the sender '{sender}': PUT /result-mappings/{sender} first.");

    /// <summary>A mapping as sent, each part judged by name.</summary>
    public static MappingInput Read(ObjectReader reader)
    {
        var columns = MappingReader.Columns(reader);
        var fixedValues = MappingReader.Fixed(reader, columns);
        var input = MappingReader.Written(reader, new MappingInput
        {
            Columns = columns,
            Fixed = fixedValues.Count == 0 ? null : fixedValues,
            Outcomes = MappingReader.Outcomes(reader),
        });
        reader.Done();
        return input;
    }

    /// <summary>A mapping as saved.</summary>
    public static MappingAnswer Answer(SavedMapping saved)
    {
        var input = JsonSerializer.Deserialize<MappingInput>(saved.Json, JsonSetup.Options)!;
        return new MappingAnswer
        {
            Sender = saved.Sender,
            Version = saved.Version,
            Saved = saved.Saved,
            SavedBy = saved.SavedBy,
            Columns = input.Columns,
            Fixed = input.Fixed,
            Outcomes = input.Outcomes,
            Dates = input.Dates,
            Decimal = input.Decimal,
            Delimiter = input.Delimiter,
            Letters = input.Letters,
        };
    }
}
