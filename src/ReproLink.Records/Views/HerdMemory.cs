using NodaTime;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Records;

/// <summary>What is read of a herd before anything is folded, as of one change. Never altered: a newer one takes its place.</summary>
/// <param name="Herd">The herd.</param>
/// <param name="Sequence">The last change it contains.</param>
/// <param name="Recorded">When that change was recorded.</param>
/// <param name="Rules">Time zone and programmes.</param>
/// <param name="Histories">Animals with a fact that counts, in natural order.</param>
/// <param name="Held">Open held results by the animal they may mean.</param>
/// <param name="Facts">How many facts it keeps in memory.</param>
internal sealed record HerdMemory(
    Herd Herd,
    long Sequence,
    Instant Recorded,
    HerdRules Rules,
    AnimalHistory[] Histories,
    Dictionary<string, IReadOnlyList<HeldNotice>> Held,
    long Facts);
