using System.Runtime.CompilerServices;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.ReceivedResults;

/// <summary>Finds animals of one view by what a result may call them. Made once a view, when first asked.</summary>
internal sealed class HerdIndex
{
    private static readonly ConditionalWeakTable<HerdView, HerdIndex> Made = [];

    private readonly Lazy<Dictionary<string, List<AnimalState>>> _byIdentifier;
    private readonly Lazy<Dictionary<string, List<(AnimalState Animal, Day Day)>>> _byTube;
    private readonly Lazy<Dictionary<string, List<AnimalState>>> _byKey;
    private readonly HerdView _view;

    private HerdIndex(HerdView view)
    {
        _byIdentifier = new(() => Identifiers(view));
        _byTube = new(() => Tubes(view));
        _byKey = new(() => Keys(view));
        _view = view;
    }

    public static HerdIndex Of(HerdView view) => Made.GetValue(view, v => new HerdIndex(v));

    /// <summary>
    /// The animals a text may name: exactly, by the herd's own name, then by identifier; only when nothing is exactly alike, by
    /// what is left without blanks and leading zeros.
    /// </summary>
    public IReadOnlyList<AnimalState> Named(string text) =>
        _view.Find(text) is { } own ? [own]
        : WithIdentifier(text) is { Count: > 0 } exact ? exact
        : Alike(text);

    /// <summary>The animals with a name or identifier that is alike but for blanks, case and leading zeros.</summary>
    public IReadOnlyList<AnimalState> Alike(string text) => _byKey.Value.TryGetValue(ReceivedResults.Identifiers.Key(text), out var animals) ? animals : [];

    /// <summary>The animals that carry an identifier, in whatever scheme.</summary>
    public IReadOnlyList<AnimalState> WithIdentifier(string id) => _byIdentifier.Value.TryGetValue(id, out var animals) ? animals : [];

    /// <summary>The animals whose sample is in a tube: of that day, or of any day when the tube was not used that day.</summary>
    public IReadOnlyList<AnimalState> WithTube(string tube, Day day)
    {
        if (!_byTube.Value.TryGetValue(tube, out var samples))
        {
            return [];
        }

        var sameDay = samples.Where(s => s.Day == day).Select(s => s.Animal).Distinct().ToArray();
        return sameDay.Length > 0 ? sameDay : [.. samples.Select(s => s.Animal).Distinct()];
    }

    /// <summary>Whether a sample of that animal was recorded for a day.</summary>
    public static bool HasSample(AnimalState animal, Day day) => animal.History.Facts.Any(f => f is Sample && f.Day == day);

    private static Dictionary<string, List<AnimalState>> Identifiers(HerdView view)
    {
        var index = new Dictionary<string, List<AnimalState>>(StringComparer.Ordinal);
        foreach (var animal in view.Animals)
        {
            foreach (var id in (animal.Card?.Identifiers ?? []).Select(i => i.Id).Distinct())
            {
                (index.TryGetValue(id, out var list) ? list : index[id] = []).Add(animal);
            }
        }

        return index;
    }

    private static Dictionary<string, List<AnimalState>> Keys(HerdView view)
    {
        var index = new Dictionary<string, List<AnimalState>>(StringComparer.Ordinal);
        foreach (var animal in view.Animals)
        {
            foreach (var key in (animal.Card?.Identifiers ?? []).Select(i => i.Id).Append(animal.Animal).Select(ReceivedResults.Identifiers.Key).Distinct())
            {
                (index.TryGetValue(key, out var list) ? list : index[key] = []).Add(animal);
            }
        }

        return index;
    }

    private static Dictionary<string, List<(AnimalState, Day)>> Tubes(HerdView view)
    {
        var index = new Dictionary<string, List<(AnimalState, Day)>>(StringComparer.Ordinal);
        foreach (var animal in view.Animals)
        {
            foreach (var fact in animal.History.Facts)
            {
                if (fact is Sample { Tube: { } tube })
                {
                    (index.TryGetValue(tube, out var list) ? list : index[tube] = []).Add((animal, fact.Day));
                }
            }
        }

        return index;
    }
}
