using System.Collections.Concurrent;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Protocols;

namespace ReproLink.Calendar.Resynchronisation;

/// <summary>
/// The candidate starts of a herd's rules, found once for each pair of first start day and first test day: animals served in
/// one week share them. What is remembered is a function of the rules alone.
/// </summary>
internal sealed class StartMemory
{
    // A few years of days; beyond that whoever asks is working through history, and it is let go.
    private const int Most = 10_000;
    private readonly ConcurrentDictionary<(Protocol Protocol, Day Earliest, Day Opens), FirstStart[]> _known = new(ByReference.Instance);
    private int _count;

    public FirstStart[]? Of(Protocol protocol, Day earliest, Day opens) => _known.GetValueOrDefault((protocol, earliest, opens));

    public FirstStart[] Keep(Protocol protocol, Day earliest, Day opens, FirstStart[] starts)
    {
        if (Interlocked.Increment(ref _count) > Most)
        {
            _known.Clear();
            Interlocked.Exchange(ref _count, 0);
        }

        return _known[(protocol, earliest, opens)] = starts;
    }

    // A protocol is a record of many parts: the very object is key enough.
    private sealed class ByReference : IEqualityComparer<(Protocol Protocol, Day Earliest, Day Opens)>
    {
        public static readonly ByReference Instance = new();

        public bool Equals((Protocol Protocol, Day Earliest, Day Opens) x, (Protocol Protocol, Day Earliest, Day Opens) y) =>
            ReferenceEquals(x.Protocol, y.Protocol) && x.Earliest == y.Earliest && x.Opens == y.Opens;

        public int GetHashCode((Protocol Protocol, Day Earliest, Day Opens) key) =>
            HashCode.Combine(System.Runtime.CompilerServices.RuntimeHelpers.GetHashCode(key.Protocol), key.Earliest.Number, key.Opens.Number);
    }
}
