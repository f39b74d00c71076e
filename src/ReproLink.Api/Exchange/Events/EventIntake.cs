using System.Text.Json;
using ReproLink.Api.Access;
using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.PregnancyChecks;
using ReproLink.Api.Problems;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Events;

/// <summary>Messages on their way in: read, judged, tied to animals, and handed to the store.</summary>
internal sealed class EventIntake(Store store, HerdRequest request, EventNoun noun, CancellationToken ct)
{
    /// <summary>Reads, judges and stores.</summary>
    public async Task<IReadOnlyList<EventItem>> Take(IEnumerable<JsonElement> messages)
    {
        var view = store.Views.Current(request.Herd, request.Now);
        var animals = new AnimalResolver(view);
        var items = messages.Select(message => new EventItem(new EventInput(message, request, noun), message)).ToArray();
        foreach (var item in items)
        {
            item.Read(noun, animals);
        }

        RefuseTakenIds(items);
        if (noun.IsResult)
        {
            store.Rounds.Look(request.Herd, tubes =>
            {
                Array.ForEach(items, new CheckMatcher(view, tubes).Tie);
                return items;
            });
        }

        await new EventWriter(store, request, noun, ct).Write(items);
        var latest = store.Changes.Latest(request.Herd, items.Where(i => !i.IsRefused).Select(i => i.Identity));
        foreach (var item in items.Where(i => !i.IsRefused))
        {
            item.Stored = latest.TryGetValue(item.Identity, out var stored) && noun.Kinds.Contains(stored.Fact.Kind) ? stored : null;
        }

        return items;
    }

    // The standard makes ids unique within a source. A sender that counts each kind from 1 would replace a heat by a calving:
    // it is told, and nothing is lost.
    private void RefuseTakenIds(EventItem[] items)
    {
        var taken = store.Changes.Latest(request.Herd, items.Where(i => !i.IsRefused).Select(i => i.Identity));
        foreach (var item in items.Where(i => !i.IsRefused))
        {
            if (taken.TryGetValue(item.Identity, out var other) && !other.IsDeleted && !noun.Kinds.Contains(other.Fact.Kind))
            {
                var kind = Facts.FactVocabulary.KindWord(other.Fact.Kind);
                item.Input.Problems.Add(ProblemTypes.InvalidValue, "meta/sourceId", item.Input.SourceId, "an id that is unique within its source",
                    $"'{item.Input.SourceId}' of the source '{item.Input.Source}' is already a fact of kind {kind}; ids must be unique within a source, over all kinds of events.");
                item.Drop();
            }
        }
    }
}
