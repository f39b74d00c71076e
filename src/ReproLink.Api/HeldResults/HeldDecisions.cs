using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
using ReproLink.Api.Idempotency;
using ReproLink.Api.OpenApi;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
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
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(AssignInput), "Whose it is.", """{"animal":"1042","tube":"R12-003"}""")
            .AnswersJson(200, "It is assigned.", typeof(HeldDecisionAnswer), """{"heldId":"h_0c5t9x2m7h1ka","status":"assigned","animal":"1042","factId":"f_0c5t9x2m7h1ka","decides":"open"}""")
            .Refuses(400, 404, 409, 413, 415);
        herd.MapPost("/held-results/{heldId}/dismiss", Dismiss)
            .WithMetadata(new Needs(Permissions.Confirm))
            .Describe(HeldEndpoints.Tag, "dismissHeldResult", "Set it aside", "It stays on record and closes no gate any more. Manager or veterinarian.")
            .Takes(IdempotencyHeader.Doc)
            .Reads(typeof(HeldReasonInput), "Why.", """{"reason":"not our herd"}""")
            .AnswersJson(200, "It is set aside.", typeof(HeldDecisionAnswer), """{"heldId":"h_0c5t9x2m7h1ka","status":"dismissed"}""")
            .Refuses(400, 404, 409, 413, 415);
        herd.MapPost("/held-results/{heldId}/reopen", Reopen)
            .WithMetadata(new Needs(Permissions.Confirm))
            .Describe(HeldEndpoints.Tag, "reopenHeldResult", "Undo the decision", """
                The fact it became is withdrawn, and it waits again, under a new id. Only a person's decision is undone, and only while nothing newer came
                from its sender. Manager or veterinarian.
                """)
            .Takes(IdempotencyHeader.Doc)
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

        // Whether it is settled is the store's to say, so that a request repeated by its key gets its first answer.
        if (HeldReading.Again(held, request) is not { } said)
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

        return await Decide(context, body.Bytes, decision => Assigned(request, view.Rules, heldId, draft, decision),
            reply => store.Held.Assign(request.Herd, heldId, draft, request.Caller.Name, request.Now, reply));
    }

    private static StoredAnswer Assigned(HerdRequest request, HerdRules rules, string heldId, FactDraft draft, HeldDecision decision)
    {
        if (decision is not { Status: HeldStatus.Settled, Fact: { } fact })
        {
            return Settled(heldId).Keep();
        }

        var knownAt = Instant.Max(request.Now, decision.Recorded);
        var traces = new AnimalTraces(decision.History, rules, Day.From(knownAt.InZone(request.Zone).Date), knownAt);
        return IdempotencyHeader.Keep(200, new HeldDecisionAnswer
        {
            HeldId = heldId,
            Status = "assigned",
            Animal = draft.Animal,
            FactId = fact.Id.ToString(),
            Decides = TestResultMapping.DecisionWord(traces.Of(draft.Animal).Of(fact.Id)?.Decides ?? Decision.Nothing),
        });
    }

    private static Task<IResult> Dismiss(HttpContext context, Store store, string heldId) => WithReason(
        context,
        decision => decision.Status switch
        {
            HeldStatus.Settled => IdempotencyHeader.Keep(200, new HeldDecisionAnswer { HeldId = heldId, Status = "dismissed" }),
            HeldStatus.NotFound => HeldEndpoints.NotFound(heldId).Keep(),
            _ => Settled(heldId).Keep(),
        },
        (request, reason, reply) => store.Held.Dismiss(request.Herd, heldId, reason, request.Caller.Name, request.Now, reply));

    private static Task<IResult> Reopen(HttpContext context, Store store, string heldId) => WithReason(
        context,
        decision => decision.Status switch
        {
            HeldStatus.Settled => IdempotencyHeader.Keep(200, new HeldDecisionAnswer { HeldId = decision.Reopened!, Status = "reopened" }),
            HeldStatus.NotFound => HeldEndpoints.NotFound(heldId).Keep(),
            _ => Problem.Of(ProblemTypes.HeldSettled, $"'{heldId}' waits, or was not settled by a person, or its sender said more since: there is nothing to undo.").Keep(),
        },
        (request, reason, reply) => store.Held.Reopen(request.Herd, heldId, reason, request.Caller.Name, request.Now, reply));

    private static async Task<IResult> WithReason(
        HttpContext context, Func<HeldDecision, StoredAnswer> render, Func<HerdRequest, string, Reply<HeldDecision>, Task<Once<HeldDecision>>> decide)
    {
        var (body, refusal) = await ObjectBody.Read(context);
        using var _ = body;
        if (body is null)
        {
            return refusal!;
        }

        var reader = new ObjectReader(body.Root, new FieldProblems());
        var reason = reader.Text("reason", TextRule.Words, required: true);
        reader.Done();
        return reader.Problems.Any
            ? Problem.OfBody(reader.Problems.List)
            : await Decide(context, body.Bytes, render, reply => decide(context.Herd(), reason!, reply));
    }

    private static async Task<IResult> Decide(
        HttpContext context, byte[] body, Func<HeldDecision, StoredAnswer> render, Func<Reply<HeldDecision>, Task<Once<HeldDecision>>> decide)
    {
        var (idempotency, refusal) = IdempotencyHeader.Of(context, body);
        if (refusal is not null)
        {
            return refusal;
        }

        var once = await decide(new Reply<HeldDecision>(render, idempotency));
        return IdempotencyHeader.Answer(once.Status, once.Answer);
    }

    private static Problem Settled(string heldId) => Problem.Of(ProblemTypes.HeldSettled, $"'{heldId}' is settled already.");
}
