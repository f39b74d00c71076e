using ReproLink.Api.ReceivedResults;
using ReproLink.Calendar.Rounds;
using ReproLink.Records;
using ReproLink.Web.Words;

namespace ReproLink.Api.Pages.Rounds;

/// <summary>From what was typed or scanned at the chute to a tube of the round, or to a sentence that says what it is instead.</summary>
internal sealed class RoundFinder(Store store, HerdView view, Round round)
{
    public (Tube? Tube, string? Instead) Find(string text)
    {
        if (TubeNames.Read(text) is var (of, number))
        {
            return of == round.Number && round.Find(number) is { } tube ? (tube, null)
                : store.Rounds.Find(view.Herd, of) is { } other ? (null, Say.ForeignTube(text, other))
                : (null, Say.NoSuchTube(text));
        }

        // Her tube that is still to be drawn goes before one that is settled.
        var animals = HerdIndex.Of(view).Named(text).Select(a => a.Animal).ToHashSet(StringComparer.Ordinal);
        var hers = round.Tubes.Where(t => animals.Contains(t.Animal)).OrderByDescending(t => t.Standing.State == TubeState.Planned).ToList();
        return hers.Count > 0 && hers.TrueForAll(t => t.Animal == hers[0].Animal) ? (hers[0], null) : (null, Say.NotInRound(text, round.Number));
    }

    /// <summary>What an ear tag may carry, by animal of the round.</summary>
    public IReadOnlyDictionary<string, string> Identifiers() => round.Tubes.Select(t => t.Animal).Distinct(StringComparer.Ordinal)
        .Select(animal => (animal, ids: view.Find(animal)?.Card?.Identifiers.Select(i => i.Id).Where(id => !id.Contains(' ', StringComparison.Ordinal)).ToList() ?? []))
        .Where(a => a.ids.Count > 0)
        .ToDictionary(a => a.animal, a => string.Join(' ', a.ids), StringComparer.Ordinal);
}
