using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;
using ReproLink.Calendar.Testing;

namespace ReproLink.Records;

/// <summary>A herd as its facts tell it: every animal folded, for one day as known at one moment.</summary>
/// <param name="Herd">The herd.</param>
/// <param name="Sequence">The last change it contains.</param>
/// <param name="Rules">What governed it at that moment.</param>
/// <param name="AsOf">The day.</param>
/// <param name="KnownAt">The moment.</param>
/// <param name="Animals">Every animal with a fact that counts, in natural order (4 before 10); not yet there on the day: <see cref="AnimalState.Exists"/> is false.</param>
public sealed record HerdView(
    Herd Herd, long Sequence, HerdRules Rules, Day AsOf, Instant KnownAt, IReadOnlyList<AnimalState> Animals)
{
    /// <summary>One animal by the herd's own name of her; null when she has no fact that counts.</summary>
    public AnimalState? Find(string animal)
    {
        ArgumentNullException.ThrowIfNull(animal);
        var (low, high) = (0, Animals.Count - 1);
        while (low <= high)
        {
            var middle = low + ((high - low) / 2);
            var order = NaturalOrder.Instance.Compare(Animals[middle].Animal, animal);
            if (order == 0)
            {
                return Animals[middle];
            }

            (low, high) = order < 0 ? (middle + 1, high) : (low, middle - 1);
        }

        return null;
    }
}
