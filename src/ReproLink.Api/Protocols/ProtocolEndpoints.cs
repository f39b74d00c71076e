using ReproLink.Api.Access;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.Transfer;
using ReproLink.Calendar.Explanations;
using ReproLink.Calendar.Protocols;
using ReproLink.Records;

namespace ReproLink.Api.Protocols;

/// <summary>Published protocols with their sources, and the herd's own.</summary>
internal static class ProtocolEndpoints
{
    public static void MapProtocols(this IEndpointRouteBuilder herd)
    {
        herd.MapGet("/protocols", List)
            .WithMetadata(new Needs(Permissions.Read))
            .Tags()
            .Describe("Protocols", "listProtocols", "Every protocol", "Published sequences of steps with source and evidence mark, and the herd's own.")
            .AnswersJson(200, "The protocols.", typeof(ProtocolList), ProtocolExamples.List)
            .Refuses(400);
        herd.MapGet("/protocols/{protocolId}", Get)
            .WithMetadata(new Needs(Permissions.Read))
            .Tags()
            .Describe("Protocols", "getProtocol", "One protocol", "Its steps, source and evidence mark.")
            .AnswersJson(200, "The protocol.", typeof(ProtocolAnswer), ProtocolExamples.One)
            .Refuses(400, 404);
        herd.MapPost("/protocols", Add)
            .WithMetadata(new Needs(Permissions.Manage))
            .Describe("Protocols", "addProtocol", "Add the herd's own protocol", """
                In the schema of the published ones (docs/protocols.md). Prostaglandin and inseminations must be gated, an insert must come out ungated. A
                programme that uses it still needs a veterinarian's approval. Manager.
                """)
            .Reads(typeof(ProtocolInput), "The protocol.", ProtocolExamples.Own)
            .AnswersJson(201, "It was added.", typeof(ProtocolAnswer), ProtocolExamples.OwnAnswer)
            .Conflicts(ProblemTypes.ProtocolIdTaken)
            .Refuses(400, 413, 415);
        herd.MapPost("/protocols/{protocolId}/confirm", Confirm)
            .WithMetadata(new Needs(Permissions.Approve))
            .Describe("Protocols", "confirmProtocol", "Answer for a recalled protocol", """
                A schedule that was recalled but not read again in its source is listed and cannot be chosen until a veterinarian confirms it. Veterinarian.
                """)
            .AnswersJson(200, "It may be chosen.", typeof(ProtocolAnswer), ProtocolExamples.One)
            .Refuses(400, 404);
    }

    private static IResult List(HttpContext context, Store store)
    {
        if (new QueryReader(context).Done() is { } refusal)
        {
            return refusal;
        }

        var herd = context.Herd().Herd;
        var own = store.Protocols.Own(herd);
        var confirmed = Confirmed(store, herd);
        return Results.Ok(new ProtocolList
        {
            Protocols =
            [
                .. ProtocolLibrary.All.Values.Where(p => own.All(o => o.Id != p.Id)).OrderBy(p => p.Id, StringComparer.Ordinal)
                    .Select(p => ProtocolMapping.Answer(p, false, confirmed.GetValueOrDefault(p.Id))),
                .. own.Select(p => ProtocolMapping.Answer(p, true, null)),
            ],
            Cautions = Cautions.All,
        });
    }

    private static IResult Get(HttpContext context, Store store, string protocolId) =>
        new QueryReader(context).Done() ?? Answer(context, store, protocolId);

    private static IResult Answer(HttpContext context, Store store, string protocolId)
    {
        var herd = context.Herd().Herd;
        if (store.Protocols.Own(herd).FirstOrDefault(p => p.Id == protocolId) is { } own)
        {
            return Results.Ok(ProtocolMapping.Answer(own, true, null));
        }

        return ProtocolLibrary.Find(protocolId) is { } published
            ? Results.Ok(ProtocolMapping.Answer(published, false, Confirmed(store, herd).GetValueOrDefault(protocolId)))
            : NoSuchProtocol();
    }

    private static async Task<IResult> Add(HttpContext context, Store store)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var id = body.Root.TryGetProperty("id", out var property) ? property.ToString() : "protocol";
        try
        {
            var protocol = ProtocolReader.Read($"{id}.json", body.Root.GetRawText());
            if (ProtocolLibrary.Find(protocol.Id) is not null)
            {
                return Problem.Of(ProblemTypes.ProtocolIdTaken, $"'{protocol.Id}' is the id of a published protocol; choose another.");
            }

            await store.Protocols.Add(request.Herd, protocol, body.Root.GetRawText(), request.Caller.Name, request.Now);
            var at = $"{context.Request.Path}/{Uri.EscapeDataString(protocol.Id)}";
            return Results.Created(at, ProtocolMapping.Answer(protocol, true, null));
        }
        catch (ProtocolDefinitionException error)
        {
            return Problem.Of(ProblemTypes.BadProtocol, error.Reason);
        }
    }

    private static async Task<IResult> Confirm(HttpContext context, Store store, string protocolId)
    {
        var request = context.Herd();
        if (ProtocolLibrary.Find(protocolId) is null)
        {
            return NoSuchProtocol();
        }

        await store.Protocols.Confirm(request.Herd, protocolId, request.Caller.Name, request.Now);
        return Answer(context, store, protocolId);
    }

    private static Dictionary<string, ProtocolConfirmation> Confirmed(Store store, Herd herd) =>
        store.Protocols.Confirmations(herd).GroupBy(c => c.Protocol, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Last(), StringComparer.Ordinal);

    private static Problem NoSuchProtocol() => Problem.Of(ProblemTypes.ProtocolNotFound, "There is no such protocol; GET /protocols lists them.");
}
