using System.Collections.Concurrent;
using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Status;

namespace ReproLink.Records;

/// <summary>
/// Folded herds, kept in memory by the number of their last change. A write marks the herd; the next look reads and folds
/// only the animals that the changes since then name. Readers of a herd wait for each other's refresh, never for the writer.
/// </summary>
public sealed class HerdViews
{
    // Beyond either, bringing the whole herd up to date costs less than reading animals, or the changes since, again and again.
    private const int MostAlone = 16;
    private const int MostBehind = 500;

    private readonly Readers _readers;
    private readonly ForeignWrites _foreign;
    private readonly long _mostFacts;
    private readonly ConcurrentDictionary<long, Entry> _entries = new();
    private long _folds;

    internal HerdViews(Readers readers, ForeignWrites foreign, long mostFacts) =>
        (_readers, _foreign, _mostFacts) = (readers, foreign, mostFacts);

    /// <summary>Facts in memory now.</summary>
    public long FactsInMemory => _entries.Values.Sum(entry => entry.Fold?.Memory.Facts ?? 0);

    /// <summary>How often a herd was folded so far, whole or in part.</summary>
    public long Folds => Interlocked.Read(ref _folds);

    /// <summary>
    /// The herd today: as of the local day of <paramref name="now"/>, as known now. A change that anyone could read before is in it.
    /// </summary>
    public HerdView Current(Herd herd, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        var fold = Fold(herd, now);
        var known = fold.Known(now);
        return known == fold.View.KnownAt ? fold.View : fold.View with { KnownAt = known };
    }

    /// <summary>
    /// The herd on any day as known at any moment; null = today, now. Folded for this call; read for it too when the moment
    /// lies before the herd's last change.
    /// </summary>
    public HerdView At(Herd herd, Day? asOf, Instant? knownAt, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        if (asOf is null && knownAt is null)
        {
            return Current(herd, now);
        }

        var fold = Fold(herd, now);
        var known = knownAt ?? fold.Known(now);
        var memory = known >= fold.Memory.Recorded
            ? fold.Memory
            : _readers.Read(connection => HerdReader.Whole(connection, herd.Id, Ticks.Of(known), new TextPool()));
        Interlocked.Increment(ref _folds);
        return HerdFold.Of(memory, asOf ?? fold.Memory.Rules.DayOf(now), known, before: null).View;
    }

    /// <summary>One animal of <see cref="At"/>, without folding the others; null when no fact of hers counts.</summary>
    public AnimalState? AnimalAt(Herd herd, string animal, Day? asOf, Instant? knownAt, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(animal);
        var fold = Fold(herd, now);
        if (asOf is null && knownAt is null)
        {
            return fold.View.Find(animal);
        }

        var known = knownAt ?? fold.Known(now);
        var day = asOf ?? fold.Memory.Rules.DayOf(now);
        if (known >= fold.Memory.Recorded)
        {
            return fold.View.Find(animal) is { } state ? HistoryFold.Fold(state.History, fold.Memory.Rules, day, known) : null;
        }

        return _readers.Read(connection => HerdReader.One(connection, herd.Id, animal, Ticks.Of(known)) is { } history
            ? HistoryFold.Fold(history, HerdReader.RulesAt(connection, herd.Id, Ticks.Of(known)), day, known)
            : null);
    }

    /// <summary>
    /// A few animals today, as known now, and the herd's rules: of a herd that was written to since it was folded they are read alone,
    /// so that a stream of single facts does not bring the whole herd up to date for each.
    /// </summary>
    public HerdPart Some(Herd herd, IReadOnlyCollection<string> animals, Instant now)
    {
        ArgumentNullException.ThrowIfNull(herd);
        ArgumentNullException.ThrowIfNull(animals);
        var entry = Asked(herd);
        if (animals.Count <= MostAlone && entry.Fold is { } fold && entry.Fresh(now) is null
            && _readers.Read(connection => HerdReader.Some(connection, fold.Memory, animals, MostBehind)) is var (part, recorded))
        {
            var known = Instant.Max(fold.Known(now), recorded);
            return new HerdPart(fold.Memory.Rules, fold.Memory.Rules.DayOf(known), known, animal => part.TryGetValue(animal, out var history) ? history
                : throw new ArgumentException($"'{animal}' is not one of the animals asked for.", nameof(animal)));
        }

        var view = Current(herd, now);
        return new HerdPart(view.Rules, view.AsOf, view.KnownAt, animal => view.Find(animal)?.History);
    }

    /// <summary>
    /// The writer tells of herds it is about to change: a reader who then finds a change in the file never gets a view without
    /// it. Until the commit, and after one that failed, looks only read the herd's position again.
    /// </summary>
    internal void Committing(IReadOnlyDictionary<long, long> touched)
    {
        foreach (var (herd, sequence) in touched)
        {
            if (_entries.TryGetValue(herd, out var entry))
            {
                entry.Publish(sequence);
            }
        }
    }

    private HerdFold Fold(Herd herd, Instant now)
    {
        var entry = Asked(herd);
        if (entry.Fresh(now) is { } fold)
        {
            return fold;
        }

        lock (entry.Gate)
        {
            if (entry.Fresh(now) is { } meanwhile)
            {
                return meanwhile;
            }

            fold = Refresh(herd, entry, now);
        }

        LetGo(entry);
        return fold;
    }

    private Entry Asked(Herd herd)
    {
        var entry = _entries.GetOrAdd(herd.Id, static _ => new Entry());
        entry.Touch();
        LookForForeignWrites(herd, entry);
        return entry;
    }

    private HerdFold Refresh(Herd herd, Entry entry, Instant now)
    {
        var before = entry.Fold;
        var memory = _readers.Read(connection => before is null
            ? HerdReader.Whole(connection, herd.Id, knownAt: null, entry.Texts)
            : HerdReader.Since(connection, before.Memory, entry.Texts));
        if (before is not null && ReferenceEquals(memory, before.Memory) && before.Holds(now))
        {
            return before;
        }

        // Not before what it contains was recorded, nor before what was answered already.
        var known = Instant.Max(now, memory.Recorded);
        var fold = HerdFold.Of(memory, memory.Rules.DayOf(now), before is null ? known : before.Known(known), before);
        entry.Fold = fold;
        Interlocked.Increment(ref _folds);
        entry.Publish(memory.Sequence);
        return fold;
    }

    private void LookForForeignWrites(Herd herd, Entry entry)
    {
        var version = _foreign.Version();
        if (entry.ForeignVersion != version)
        {
            entry.Publish(_readers.Read(connection => HerdReader.Position(connection, herd.Id, knownAt: null).Sequence));
            entry.ForeignVersion = version;
        }
    }

    private void LetGo(Entry keep)
    {
        var facts = FactsInMemory;
        if (facts <= _mostFacts)
        {
            return;
        }

        foreach (var (herd, entry) in _entries.Where(e => e.Value != keep).OrderBy(e => e.Value.LastAsked).ToArray())
        {
            if (facts <= _mostFacts)
            {
                return;
            }

            facts -= entry.Fold?.Memory.Facts ?? 0;
            _entries.TryRemove(herd, out _);
        }
    }

    private sealed class Entry
    {
        private HerdFold? _fold;
        private long _published;
        private long _lastAsked;
        private long _foreignVersion;

        public Lock Gate { get; } = new();

        public TextPool Texts { get; } = new();

        public HerdFold? Fold
        {
            get => Volatile.Read(ref _fold);
            set => Volatile.Write(ref _fold, value);
        }

        public long LastAsked => Volatile.Read(ref _lastAsked);

        public long ForeignVersion
        {
            get => Volatile.Read(ref _foreignVersion);
            set => Volatile.Write(ref _foreignVersion, value);
        }

        public void Touch() => Volatile.Write(ref _lastAsked, Environment.TickCount64);

        /// <summary>The fold, unless a change or the clock has overtaken it.</summary>
        public HerdFold? Fresh(Instant now) =>
            Fold is { } fold && fold.Memory.Sequence >= Volatile.Read(ref _published) && fold.Holds(now) ? fold : null;

        public void Publish(long sequence)
        {
            long seen;
            while ((seen = Volatile.Read(ref _published)) < sequence
                && Interlocked.CompareExchange(ref _published, sequence, seen) != seen)
            {
            }
        }
    }
}
