using System.Runtime.InteropServices;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Status;

// Most animals have most of these empty: each list is made when something is first put into it. The calendar itself walks
// them as spans, which are empty without a list and cost no enumerator.
public sealed partial class AnimalState
{
    private List<ServiceAttempt>? _services;
    private List<ExposureSpell>? _exposures;
    private List<LossRecord>? _losses;
    private List<Sample>? _samples;
    private List<Treatment>? _treatments;
    private List<Conflict>? _conflicts;

    /// <summary>Services since the calving, in order; failed ones included.</summary>
    public IReadOnlyList<ServiceAttempt> Services => _services ?? (IReadOnlyList<ServiceAttempt>)[];

    /// <summary>Exposures that count for the lactation; failed ones included.</summary>
    public IReadOnlyList<ExposureSpell> Exposures => _exposures ?? (IReadOnlyList<ExposureSpell>)[];

    /// <summary>Losses since the calving.</summary>
    public IReadOnlyList<LossRecord> Losses => _losses ?? (IReadOnlyList<LossRecord>)[];

    /// <summary>Samples since the calving that have no result for their day, in order.</summary>
    public IReadOnlyList<Sample> PendingSamples => _samples ?? (IReadOnlyList<Sample>)[];

    /// <summary>Treatments since the calving.</summary>
    public IReadOnlyList<Treatment> Treatments => _treatments ?? (IReadOnlyList<Treatment>)[];

    /// <summary>Open conflicts (rule T7).</summary>
    public IReadOnlyList<Conflict> Conflicts => _conflicts ?? (IReadOnlyList<Conflict>)[];

    internal ReadOnlySpan<ServiceAttempt> EachService => CollectionsMarshal.AsSpan(_services);

    internal ReadOnlySpan<ExposureSpell> EachExposure => CollectionsMarshal.AsSpan(_exposures);

    internal ReadOnlySpan<LossRecord> EachLoss => CollectionsMarshal.AsSpan(_losses);

    internal ReadOnlySpan<Sample> EachSample => CollectionsMarshal.AsSpan(_samples);

    internal ReadOnlySpan<Treatment> EachTreatment => CollectionsMarshal.AsSpan(_treatments);

    internal ReadOnlySpan<Conflict> EachConflict => CollectionsMarshal.AsSpan(_conflicts);

    internal void Add(ServiceAttempt service) => (_services ??= []).Add(service);

    // A service dated anew is the latest, also when another was recorded between its inseminations.
    internal void MoveToEnd(int service)
    {
        var moved = _services![service];
        _services.RemoveAt(service);
        _services.Add(moved);
    }

    internal void Add(ExposureSpell spell) => (_exposures ??= []).Add(spell);

    internal void Add(LossRecord loss) => (_losses ??= []).Add(loss);

    internal void Add(Sample sample) => (_samples ??= []).Add(sample);

    internal void Add(Treatment treatment) => (_treatments ??= []).Add(treatment);

    internal void Add(Conflict conflict) => (_conflicts ??= []).Add(conflict);

    internal bool Has(ConflictKind kind)
    {
        foreach (var conflict in EachConflict)
        {
            if (conflict.Kind == kind)
            {
                return true;
            }
        }

        return false;
    }

    internal void EndConflicts() => _conflicts?.Clear();

    internal void EndConflicts(Predicate<Conflict> which) => _conflicts?.RemoveAll(which);

    internal void DropSamples(Predicate<Sample> which) => _samples?.RemoveAll(which);

    internal void StartLactation(Day calved)
    {
        _services?.Clear();
        _losses?.Clear();
        _samples?.Clear();
        _treatments?.Clear();
        _conflicts?.Clear();
        if (_exposures is { Count: > 0 } spells)
        {
            _exposures = StillRunning(spells, calved);
        }
    }

    // T4: an exposure still running after the calving counts for the new lactation, from the calving.
    private static List<ExposureSpell> StillRunning(List<ExposureSpell> spells, Day calved) =>
        [.. spells.Where(e => e.Last is not { } last || last > calved).Select(e => new ExposureSpell(e.Fact, calved, e.Last))];
}
