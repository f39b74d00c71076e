using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Status;
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
            .Reads(typeof(AssignInput), "Whose it is.", """{"animal":"1042","tube":"R12-003"}""")
            .AnswersJson(200, "It is assigned.", typeof(HeldDecisionAnswer), """{"heldId":"h_0c5t9x2m7h1ka","status":"assigned","animal":"1042","factId":"f_0c5t9x2m7h1ka","decides":"open"}""")
            .Refuses(400, 404, 409, 413, 415);
        herd.MapPost("/held-results/{heldId}/dismiss", Dismiss)
            .WithMetadata(new Needs(Permissions.Confirm))
            .Describe(HeldEndpoints.Tag, "dismissHeldResult", "Set it aside", "It stays on record and closes no gate any more. Manager or veterinarian.")
            .Reads(typeof(HeldReasonInput), "Why.", """{"reason":"not our herd"}""")
            .AnswersJson(200, "It is set aside.", typeof(HeldDecisionAnswer), """{"heldId":"h_0c5t9x2m7h1ka","status":"dismissed"}""")
            .Refuses(400, 404, 409, 413, 415);
        herd.MapPost("/held-results/{heldId}/reopen", Reopen)
            .WithMetadata(new Needs(Permissions.Confirm))
            .Describe(HeldEndpoints.Tag, "reopenHeldResult", "Undo the decision", """
                The fact it became is withdrawn, and it waits again, under a new id. Only a person's decision is undone, and only while nothing newer came
                from its sender. Manager or veterinarian.
                """)
            .Reads(typeof(HeldReasonInput), "Why.", """{"reason":"wrong cow"}""")
            .AnswersJson(200, "It waits again.", typeof(HeldDecisionAnswer), """{"heldId":"h_1c5t9x2m7h1kb","status":"reopened"}""")
            .Refuses(400, 404, 409, 413, 415);
    }

    private static async Task<IResult> Assign(HttpContext context, Store store, string heldId)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        if (store.Held.Find(request.Herd, heldId) is not { } held)
        {
            return HeldEndpoints.NotFound(heldId);
        }

        if (held.End is not null || HeldReading.Again(held, request) is not { } said)
        {
            return Settled(heldId);
        }

        var view = store.Views.Current(request.Herd, request.Now);
        var (draft, refused) = store.Rounds.Look(request.Herd, tubes =>
            new Assignment(request, view, tubes).Read(new ObjectReader(body.Root, new FieldProblems()), said));
        if (draft is null)
        {
            return refused!;
        }

        var decision = await store.Held.Assign(request.Herd, heldId, draft, request.Caller.Name, request.Now);
        return decision is { Status: HeldStatus.Settled, Fact: { } fact } ? Results.Ok(Assigned(store, request, heldId, draft, fact)) : Settled(heldId);
    }

    private static HeldDecisionAnswer Assigned(Store store, HerdRequest request, string heldId, FactDraft draft, AppendAnswer fact)
    {
        var view = store.Views.Current(request.Herd, request.Now);
        var traces = new AnimalTraces(a => view.Find(a)?.History, view.Rules, view.AsOf, view.KnownAt);
        return new HeldDecisionAnswer
        {
            HeldId = heldId,
            Status = "assigned",
            Animal = draft.Animal,
            FactId = fact.Id.ToString(),
            Decides = TestResultMapping.DecisionWord(traces.Of(draft.Animal).Of(fact.Id)?.Decides ?? Decision.Nothing),
        };
    }

    private static async Task<IResult> Dismiss(HttpContext context, Store store, string heldId)
    {
        var (reason, refusal) = await Reason(context);
        if (reason is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        return (await store.Held.Dismiss(request.Herd, heldId, reason, request.Caller.Name, request.Now)).Status switch
        {
            HeldStatus.Settled => Results.Ok(new HeldDecisionAnswer { HeldId = heldId, Status = "dismissed" }),
            HeldStatus.NotFound => HeldEndpoints.NotFound(heldId),
            _ => Settled(heldId),
        };
    }

    private static async Task<IResult> Reopen(HttpContext context, Store store, string heldId)
    {
        var (reason, refusal) = await Reason(context);
        if (reason is null)
        {
            return refusal!;
        }

        var request = context.Herd();
        var (status, reopened) = await store.Held.Reopen(request.Herd, heldId, reason, request.Caller.Name, request.Now);
        return status switch
        {
            HeldStatus.Settled => Results.Ok(new HeldDecisionAnswer { HeldId = reopened!, Status = "reopened" }),
            HeldStatus.NotFound => HeldEndpoints.NotFound(heldId),
            _ => Problem.Of(ProblemTypes.HeldSettled, $"'{heldId}' waits, or was not settled by a person, or its sender said more since: there is nothing to undo."),
        };
    }

    private static async Task<(string? Reason, IResult? Refusal)> Reason(HttpContext context)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return (null, refusal);
        }

        var reader = new ObjectReader(body.Root, new FieldProblems());
        var reason = reader.Text("reason", TextRule.Words, required: true);
        reader.Done();
        return reader.Problems.Any ? (null, Problem.OfBody(reader.Problems.List)) : (reason, null);
    }

    private static Problem Settled(string heldId) => Problem.Of(ProblemTypes.HeldSettled, $"'{heldId}' is settled already.");
}
