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

    private HerdIndex(HerdView view)
    {
        _byIdentifier = new(() => Identifiers(view));
        _byTube = new(() => Tubes(view));
    }

    public static HerdIndex Of(HerdView view) => Made.GetValue(view, v => new HerdIndex(v));

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
