using ReproLink.Api.Access;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Events;

/// <summary>
/// Writes messages in their order: what stands beside each other becomes one write, unless a later one is about the same
/// event, for then the last must win.
/// </summary>
internal sealed class EventWriter(Store store, HerdRequest request, EventNoun noun, CancellationToken ct)
{
    private const string TakenBack = "taken back by its sender";

    public async Task Write(IReadOnlyList<EventItem> items)
    {
        var run = new List<EventItem>();
        var identities = new HashSet<(string, string)>();
        foreach (var item in items)
        {
            if (!item.IsRefused && (item.Input.IsDeleted || !identities.Add(item.Identity)))
            {
                await Append(run);
                identities.Clear();
                identities.Add(item.Identity);
            }

            if (item.Input.IsDeleted && !item.IsRefused)
            {
                await TakeBack(item);
            }
            else
            {
                run.Add(item);
            }
        }

        await Append(run);
    }

    private async Task Append(List<EventItem> run)
    {
        // Of results every line is kept, also the refused.
        if (run.TrueForAll(i => i.IsRefused) && !(noun.IsResult && run.Count > 0))
        {
            run.Clear();
            return;
        }

        var (facts, held, lines) = (new List<FactDraft>(), new List<HeldDraft>(), new List<ReceivedLine>());
        foreach (var item in run)
        {
            lines.Add(LineOf(item, facts.Count + item.Beside.Count, held.Count));
            facts.AddRange(item.Draft is { } draft ? item.Beside.Append(draft) : item.Beside);
            held.AddRange(item.Held is { } waits ? [waits] : []);
        }

        var submission = new Submission(facts, held)
        {
            Received = noun.IsResult ? new ReceivedBatch(request.Caller.Name, request.Caller.Name, null, RequestBody.Json, null, lines) : null,
        };
        var answer = await store.Facts.Submit(request.Herd, submission, request.Now, ct);
        var next = 0;
        foreach (var item in run)
        {
            item.HeldId = item.Held is null ? null : answer.Held[next++];
            foreach (var suffix in item.NotTold)
            {
                await Withdraw((item.Identity.Source, item.Identity.SourceId + suffix), "replaced");
            }
        }

        run.Clear();
    }

    private static ReceivedLine LineOf(EventItem item, int fact, int held) =>
        new(null, item.Received.GetRawText(), item.Input.Source, item.Input.SourceId)
        {
            Fact = item.Draft is null || item.IsRefused ? null : fact,
            Held = item.Held is null ? null : held,
            Why = item.IsRefused ? string.Join(" ", item.Problems.Select(p => p.Detail)) : item.Held?.Reason,
        };

    private async Task TakeBack(EventItem item)
    {
        await Withdraw(item.Identity, TakenBack);
        foreach (var (suffix, _) in noun.Besides)
        {
            await Withdraw((item.Identity.Source, item.Identity.SourceId + suffix), TakenBack);
        }

        if (store.Held.Open(request.Herd).FirstOrDefault(h => (h.Draft.Source, h.Draft.SourceId) == item.Identity) is { } waiting)
        {
            await store.Held.Dismiss(request.Herd, waiting.HeldId, TakenBack, request.Caller.Name, request.Now);
        }
    }

    private async Task Withdraw((string Source, string SourceId) identity, string reason)
    {
        // Somebody may replace it between the look and the withdrawal: then the replacement is looked at.
        while (Standing(identity) is { } id
            && await store.Facts.Withdraw(request.Herd, id, reason, request.Caller.Name, request.Now) == WithdrawStatus.AlreadyWithdrawn)
        {
        }
    }

    private FactId? Standing((string Source, string SourceId) identity) =>
        store.Changes.Latest(request.Herd, [identity]).TryGetValue(identity, out var stored) && !stored.IsDeleted ? stored.Fact.Id : null;
}
