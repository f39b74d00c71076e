using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Explanations;
using ReproLink.Api.Idempotency;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.HeldResults;

/// <summary>What a person decides about held results, whether it came as JSON or from a form of a page.</summary>
internal sealed class HeldDesk(Store store, HerdRequest request)
{
    /// <summary>Says whose it is.</summary>
    public async Task<DeskAnswer> Assign(string heldId, ObjectReader reader, IdempotencyRecord? once)
    {
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
        var (draft, refused) = store.Rounds.Look(request.Herd, tubes => new Assignment(request, view, tubes).Read(reader, said));
        return draft is null
            ? refused!
            : await store.Held.Assign(request.Herd, heldId, draft, request.Caller.Name, request.Now,
                new Reply<HeldDecision>(decision => Assigned(view.Rules, heldId, draft, decision), once));
    }

    /// <summary>Sets it aside, with a reason.</summary>
    public Task<DeskAnswer> Dismiss(string heldId, ObjectReader reader, IdempotencyRecord? once) => WithReason(
        reader,
        new Reply<HeldDecision>(decision => decision.Status switch
        {
            HeldStatus.Settled => IdempotencyHeader.Keep(200, new HeldDecisionAnswer { HeldId = heldId, Status = "dismissed" }),
            HeldStatus.NotFound => HeldEndpoints.NotFound(heldId).Keep(),
            _ => Settled(heldId).Keep(),
        }, once),
        (reason, reply) => store.Held.Dismiss(request.Herd, heldId, reason, request.Caller.Name, request.Now, reply));

    /// <summary>Undoes a person's decision.</summary>
    public Task<DeskAnswer> Reopen(string heldId, ObjectReader reader, IdempotencyRecord? once) => WithReason(
        reader,
        new Reply<HeldDecision>(decision => decision.Status switch
        {
            HeldStatus.Settled => IdempotencyHeader.Keep(200, new HeldDecisionAnswer { HeldId = decision.Reopened!, Status = "reopened" }),
            HeldStatus.NotFound => HeldEndpoints.NotFound(heldId).Keep(),
            _ => Problem.Of(ProblemTypes.HeldSettled, $"'{heldId}' waits, or was not settled by a person, or its sender said more since: there is nothing to undo.").Keep(),
        }, once),
        (reason, reply) => store.Held.Reopen(request.Herd, heldId, reason, request.Caller.Name, request.Now, reply));

    private static async Task<DeskAnswer> WithReason(
        ObjectReader reader, Reply<HeldDecision> reply, Func<string, Reply<HeldDecision>, Task<Once<HeldDecision>>> decide)
    {
        var reason = reader.Text("reason", TextRule.Words, required: true);
        reader.Done();
        return reader.Problems.Any ? Problem.OfBody(reader.Problems.List) : await decide(reason!, reply);
    }

    private StoredAnswer Assigned(HerdRules rules, string heldId, FactDraft draft, HeldDecision decision)
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

    private static Problem Settled(string heldId) => Problem.Of(ProblemTypes.HeldSettled, $"'{heldId}' is settled already.");
}
