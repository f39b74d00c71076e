using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Herds;

/// <summary>The location itself.</summary>
internal static class HerdEndpoints
{
    private const string Example = """
        {"location":{"scheme":"farm","id":"north-ridge"},"name":"North Ridge","timeZone":"America/Chicago","today":"2026-10-05",
         "counts":{"animals":412,"facts":4804},"created":"2026-09-01T08:00:00Z","changed":"2026-09-01T08:00:00Z"}
        """;

    public static void MapHerds(this IEndpointRouteBuilder herd)
    {
        herd.MapPut("", Put)
            .WithMetadata(new Needs(Permissions.Manage) { CreatesHerd = true })
            .Describe("Herd", "putHerd", "Create or change the location", "Names the herd and the time zone its days are counted in. The first PUT creates it. Manager.")
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(HerdInput), "The herd.", """{"name":"North Ridge","timeZone":"America/Chicago"}""")
            .AnswersJson(200, "It was changed.", typeof(HerdAnswer), Example)
            .AnswersJson(201, "It was created.", typeof(HerdAnswer), Example)
            .Refuses(400, 413, 415);
        herd.MapGet("", Get)
            .WithMetadata(new Needs(Permissions.Read))
            .Describe("Herd", "getHerd", "The location and its counts", "The herd's name, time zone, today and what is on record.")
            .AnswersJson(200, "The herd.", typeof(HerdAnswer), Example)
            .Refuses(400);
    }

    private static async Task<IResult> Put(HttpContext context, Store store, IClock clock)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        var location = context.Location();
        refusal ??= KeyProblem(location);
        if (refusal is not null)
        {
            return refusal;
        }

        var reader = new ObjectReader(body!.Root, new FieldProblems());
        var (name, zone) = HerdMapping.Read(reader);
        var (idempotency, wrongKey) = IdempotencyHeader.Of(context, body.Bytes);
        if (reader.Problems.Any || wrongKey is not null)
        {
            return wrongKey ?? Problem.OfBody(reader.Problems.List);
        }

        var isNew = store.Herds.Find(location) is null;
        var now = clock.GetCurrentInstant();
        if (isNew)
        {
            context.Response.Headers.Location = $"/locations/{Uri.EscapeDataString(location.Scheme)}/{Uri.EscapeDataString(location.Id)}";
        }

        if (idempotency is null)
        {
            return IdempotencyHeader.Answer(OnceStatus.Done, Keep(await store.Herds.Put(location, name, zone, now)));
        }

        var once = await store.Herds.Put(location, name, zone, now, idempotency, Keep);
        return IdempotencyHeader.Answer(once.Status, once.Answer);

        StoredAnswer Keep(Herd herd) =>
            IdempotencyHeader.Keep(isNew ? 201 : 200, Answer(HerdRequest.Of(context.Caller(), herd, now), store));
    }

    private static IResult Get(HttpContext context, Store store)
    {
        var query = new QueryReader(context);
        return query.Done() is { } refusal ? refusal : Results.Ok(Answer(context.Herd(), store));
    }

    private static HerdAnswer Answer(HerdRequest request, Store store) =>
        HerdMapping.Answer(request, store.Herds.Counts(request.Herd), store.Programmes.List(request.Herd, request.Now).Any(p => !p.Draft));

    private static Problem? KeyProblem(LocationKey location)
    {
        var problems = new FieldProblems();
        foreach (var (field, text) in new[] { ("scheme", location.Scheme), ("id", location.Id) })
        {
            if (!TextRule.Name.Accepts(text))
            {
                problems.Add(ProblemTypes.InvalidValue, field, text, TextRule.Name.Allowed, $"The {field} in the address is not allowed; allowed: {TextRule.Name.Allowed}.");
            }
        }

        return problems.Any ? Problem.OfQuery(problems.List) : null;
    }
}
