using ReproLink.Api.Access;
using ReproLink.Api.Idempotency;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.HeldResults;

/// <summary>What a person decides about a held result. Each is an act of a person who answers for it: no exchange program may.</summary>
internal static class HeldDecisions
{
    public static void MapHeldDecisions(this IEndpointRouteBuilder herd)
    {
        herd.MapPost("/held-results/{heldId}/assign", Assign)
            .WithMetadata(new Needs(Permissions.Confirm))
            .Describe(HeldEndpoints.Tag, "assignHeldResult", "Say whose result it is", """
                It becomes a fact of that animal under its sender's own id. An animal whose label the tube contradicts is refused: name the tube it was
                really in. Manager or veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(AssignInput), "Whose it is.", """{"animal":"1042","tube":"R12-003"}""")
            .AnswersJson(200, "It is assigned.", typeof(HeldDecisionAnswer), """{"heldId":"h_0c5t9x2m7h1ka","status":"assigned","animal":"1042","factId":"f_0c5t9x2m7h1ka","decides":"open"}""")
            .Conflicts(ProblemTypes.HeldSettled, ProblemTypes.AssignmentContradicts)
            .Refuses(400, 404, 413, 415);
        herd.MapPost("/held-results/{heldId}/dismiss", Dismiss)
            .WithMetadata(new Needs(Permissions.Confirm))
            .Describe(HeldEndpoints.Tag, "dismissHeldResult", "Set it aside", "It stays on record and closes no gate any more. Manager or veterinarian.")
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(HeldReasonInput), "Why.", """{"reason":"not our herd"}""")
            .AnswersJson(200, "It is set aside.", typeof(HeldDecisionAnswer), """{"heldId":"h_0c5t9x2m7h1ka","status":"dismissed"}""")
            .Conflicts(ProblemTypes.HeldSettled)
            .Refuses(400, 404, 413, 415);
        herd.MapPost("/held-results/{heldId}/reopen", Reopen)
            .WithMetadata(new Needs(Permissions.Confirm))
            .Describe(HeldEndpoints.Tag, "reopenHeldResult", "Undo the decision", """
                The fact it became is withdrawn, and it waits again, under a new id. Only a person's decision is undone, and only while nothing newer came
                from its sender. Manager or veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(HeldReasonInput), "Why.", """{"reason":"wrong cow"}""")
            .AnswersJson(200, "It waits again.", typeof(HeldDecisionAnswer), """{"heldId":"h_1c5t9x2m7h1kb","status":"reopened"}""")
            .Conflicts(ProblemTypes.HeldSettled)
            .Refuses(400, 404, 413, 415);
    }

    private static Task<IResult> Assign(HttpContext context, Store store, string heldId) =>
        Write(context, store, (desk, reader, once) => desk.Assign(heldId, reader, once));

    private static Task<IResult> Dismiss(HttpContext context, Store store, string heldId) =>
        Write(context, store, (desk, reader, once) => desk.Dismiss(heldId, reader, once));

    private static Task<IResult> Reopen(HttpContext context, Store store, string heldId) =>
        Write(context, store, (desk, reader, once) => desk.Reopen(heldId, reader, once));

    private static async Task<IResult> Write(HttpContext context, Store store, Func<HeldDesk, ObjectReader, IdempotencyRecord?, Task<DeskAnswer>> write)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        (var once, refusal) = IdempotencyHeader.Of(context, body.Bytes);
        return refusal is not null ? refusal : (await write(new HeldDesk(store, context.Herd()), new ObjectReader(body.Root, new FieldProblems()), once)).Result;
    }
}
