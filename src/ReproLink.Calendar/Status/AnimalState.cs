using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Status;

/// <summary>
/// One animal as her facts tell it on one day: the result of <see cref="HistoryFold"/>. It is filled once, by the fold,
/// and only read afterwards.
/// </summary>
public sealed partial class AnimalState
{
    internal AnimalState(AnimalHistory history, Day asOf)
    {
        History = history;
        AsOf = asOf;
    }

    /// <summary>The herd's own name of her.</summary>
    public string Animal => History.Animal;

    /// <summary>The facts she was folded from.</summary>
    public AnimalHistory History { get; }

    /// <summary>The day looked at; later facts do not count.</summary>
    public Day AsOf { get; }

    /// <summary>Whether anything at all is known of her on that day.</summary>
    public bool Exists { get; internal set; }

    /// <summary>Her card; absent = unregistered (rule F5).</summary>
    public AnimalCard? Card { get; internal set; }

    /// <summary>The larger of the cards' parity and the calvings on record; absent = neither is known.</summary>
    public int? Parity { get; internal set; }

    /// <summary>A card that says parity 0 and no calving on record.</summary>
    public bool IsHeifer { get; internal set; }

    /// <summary>Her last calving on record.</summary>
    public Calving? LastCalving { get; internal set; }

    /// <summary>Her latest arrival.</summary>
    public Arrival? LastArrival { get; internal set; }

    /// <summary>Set while she is away.</summary>
    public Departure? Departure { get; internal set; }

    /// <summary>Set while she is not to be bred.</summary>
    public DoNotBreed? DoNotBreed { get; internal set; }

    /// <summary>Dry-off of this lactation.</summary>
    public DryOff? DryOff { get; internal set; }

    /// <summary>The standing pregnancy, also underneath a recheck or conflict.</summary>
    public Pregnancy? Pregnancy { get; internal set; }

    /// <summary>The inconclusive row that is not decided yet.</summary>
    public RecheckRow? Recheck { get; internal set; }

    /// <summary>A spoiled sample that nothing has replaced yet.</summary>
    public TestResult? Invalid { get; internal set; }

    /// <summary>The latest too-early <c>pregnant</c> that still closes the gate.</summary>
    public PresumedPregnant? Presumed { get; internal set; }

    /// <summary>The latest valid <c>open</c> of the lactation.</summary>
    public OpenFinding? LastOpen { get; internal set; }

    /// <summary>What is shown: do-not-breed and left outrank the rest.</summary>
    public AnimalStatus Status =>
        Departure is not null ? AnimalStatus.Left
        : DoNotBreed is not null ? AnimalStatus.DoNotBreed
        : Underneath;

    /// <summary>The status without do-not-breed and left.</summary>
    public AnimalStatus Underneath
    {
        get
        {
            if (_conflicts is { Count: > 0 })
            {
                return AnimalStatus.Conflict;
            }

            if (Recheck is not null)
            {
                return AnimalStatus.Recheck;
            }

            if (Pregnancy is not null)
            {
                return Pregnancy.Caution ? AnimalStatus.PregnantCaution : AnimalStatus.Pregnant;
            }

            return EachService.IsEmpty && EachExposure.IsEmpty ? AnimalStatus.NotServed
                : HasCandidate ? AnimalStatus.AwaitingTest
                : AnimalStatus.Open;
        }
    }

    /// <summary>Whether a service or exposure is not failed.</summary>
    public bool HasCandidate
    {
        get
        {
            foreach (var service in EachService)
            {
                if (service.FailedBy is null)
                {
                    return true;
                }
            }

            foreach (var spell in EachExposure)
            {
                if (spell.FailedBy is null)
                {
                    return true;
                }
            }

            return false;
        }
    }

    /// <summary>The latest service since the calving.</summary>
    public ServiceAttempt? LatestService => _services is [.., var latest] ? latest : null;

    /// <summary>
    /// The day whose programme version governs her test rules (rule S10): her latest service's day; of an exposure the last
    /// day with the bull, while he is in the day asked about (T4); never served: her calving; else the day asked about.
    /// </summary>
    public Day GoverningDay(Day asked)
    {
        var latest = LatestService?.Fact.Day;
        foreach (var spell in EachExposure)
        {
            var last = spell.Last ?? asked;
            latest = latest is { } day ? Day.Max(day, last) : last;
        }

        return latest ?? LastCalving?.Day ?? asked;
    }

    /// <summary>The programme that governs her test rules on a day.</summary>
    public Programme GoverningProgramme(HerdRules rules, Day asked)
    {
        ArgumentNullException.ThrowIfNull(rules);
        return rules.On(GoverningDay(asked)).Programme;
    }

    /// <summary>Days in milk on a day; absent without a calving on record.</summary>
    public int? DaysInMilk(Day on) => LastCalving is { } calving ? on - calving.Day : null;

    /// <summary>
    /// Days post-service on a day (B3): pregnant, from the day that dates her; else from the latest day 0 or last day with
    /// the bull; absent while the bull is in, or without a service.
    /// </summary>
    public int? DaysPostService(Day on)
    {
        if (Pregnancy is { } pregnancy)
        {
            return pregnancy.To is { } dated ? on - dated : null;
        }

        Day? latest = null;
        foreach (var service in EachService)
        {
            latest = latest is { } day ? Day.Max(day, service.DayZero) : service.DayZero;
        }

        foreach (var spell in EachExposure)
        {
            if (spell.Last is not { } last)
            {
                return null;
            }

            latest = latest is { } day ? Day.Max(day, last) : last;
        }

        return latest is { } zero ? on - zero : null;
    }
}
