using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Pregnancies;

/// <summary>The dates of a pregnancy (5.8).</summary>
/// <param name="From">Day 0; of an exposure or two possible services, the earlier.</param>
/// <param name="Due">Due day: by the latest possible day 0.</param>
/// <param name="DueFrom">Earliest due day.</param>
/// <param name="DueTo">Latest due day.</param>
/// <param name="DryOff">Dry-off day, by the earliest possible day 0; absent for heifers.</param>
public sealed record PregnancyDates(Day From, Day Due, Day DueFrom, Day DueTo, Day? DryOff)
{
    /// <summary>Days either side of the due day.</summary>
    public const int WindowDays = 11;

    /// <summary>The dates of an animal's standing pregnancy; null = none, or of unknown age.</summary>
    public static PregnancyDates? Of(AnimalState state, HerdRules rules)
    {
        ArgumentNullException.ThrowIfNull(state);
        if (state.Pregnancy is not { From: { } from, To: { } to } pregnancy)
        {
            return null;
        }

        var early = Length(state, pregnancy);
        var late = pregnancy.AlsoBy is { } also ? LengthBy(also.Fact, state.Card?.Breed, state.IsHeifer) : early;
        var (dueFirst, dueLast) = (from + early, to + late);
        var before = state.GoverningProgramme(rules, from).DryOffDaysBeforeDue;
        return new PregnancyDates(from, dueLast, dueFirst - WindowDays, dueLast + WindowDays, state.IsHeifer ? null : dueFirst - before);
    }

    /// <summary>Days from day 0 of a service to the due day.</summary>
    /// <param name="service">The service.</param>
    /// <param name="damBreed">The dam's breed; null = not on record.</param>
    /// <param name="heifer">Whether she had not calved before.</param>
    // An embryo is of neither the dam's nor the recipient's sire's breed: its own if given, else the general length.
    internal static int LengthBy(Service service, string? damBreed, bool heifer) => service is EmbryoTransfer transfer
        ? transfer.EmbryoBreed is { } breed ? Gestation.Of(breed, heifer) : Gestation.Others
        : Gestation.Of(damBreed, service.SireBreed, heifer);

    private static int Length(AnimalState state, Pregnancy pregnancy) => pregnancy switch
    {
        { By: { } service } => LengthBy(service.Fact, state.Card?.Breed, state.IsHeifer),
        { ByExposure: { } spell } => Gestation.Of(state.Card?.Breed, spell.Fact.SireBreed, state.IsHeifer),
        _ => Gestation.Of(state.Card?.Breed, state.IsHeifer),
    };
}
