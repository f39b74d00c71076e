using NodaTime;
using ReproLink.Calendar.WorkCalendar;
using ReproLink.Records;

namespace ReproLink.Api.Feeds;

/// <summary>
/// When an entry last changed: the moment the latest fact behind it was recorded. Two feeds of the same facts are the same to
/// the letter.
/// </summary>
internal sealed class FeedStamps(HerdView view)
{
    private readonly Dictionary<string, Instant> _byAnimal = new(StringComparer.Ordinal);
    private readonly Instant _herd = view.Animals.SelectMany(a => a.History.Facts).Select(f => f.Recorded).DefaultIfEmpty(view.Herd.Created).Max();

    public Instant Of(WorkItem item)
    {
        if (item.Animal is not { } animal)
        {
            return _herd;
        }

        if (!_byAnimal.TryGetValue(animal.Animal, out var at))
        {
            at = animal.History.Facts.Select(f => f.Recorded).DefaultIfEmpty(view.Herd.Created).Max();
            _byAnimal.Add(animal.Animal, at);
        }

        return at;
    }
}
