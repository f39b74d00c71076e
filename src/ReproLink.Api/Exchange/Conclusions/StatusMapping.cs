using ReproLink.Api.Exchange.Animals;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Calendar.Pregnancies;
using ReproLink.Calendar.Programmes;
using ReproLink.Calendar.Status;

namespace ReproLink.Api.Exchange.Conclusions;

/// <summary>Conclusions in the standard's words.</summary>
internal static class StatusMapping
{
    /// <summary>
    /// The standard's nearest word; null where it has none. Whatever is not decided is never <c>NotPregnant</c> nor
    /// <c>Open</c>: a reader would treat her as empty.
    /// </summary>
    public static string? Word(AnimalState state) => state.Departure is not null ? null : state.Status switch
    {
        AnimalStatus.DoNotBreed => "DoNotBreed",
        AnimalStatus.Pregnant or AnimalStatus.PregnantCaution => "Pregnant",
        AnimalStatus.Open => "NotPregnant",
        AnimalStatus.AwaitingTest or AnimalStatus.Recheck => "Inseminated",
        AnimalStatus.NotServed when state.LastCalving is not null && state.LastOpen is null => "Birthed",
        _ => null,
    };

    public static StatusObserved? Observed(AnimalConclusion animal, bool withDeleted)
    {
        var state = animal.State;
        var word = Word(state);
        if (word is null && !withDeleted)
        {
            return null;
        }

        return new StatusObserved
        {
            ResourceType = "icarReproStatusObservedEventResource",
            Id = $"status:{state.Animal}",
            Meta = animal.Meta(null, null, "status", isDeleted: word is null),
            Location = animal.Location,
            Animal = AnimalBook.NameOf(state, state.Animal),
            EventDateTime = animal.Modified,
            ObservedStatus = word,
            Extension = new ExtensionContract { Animal = state.Animal, Status = StatusWords.Of(state.Status), Date = state.AsOf.Date },
        };
    }

    public static GestationMessage? Gestation(AnimalConclusion animal, HerdRules rules, bool withDeleted)
    {
        var state = animal.State;
        // What is contradicted or away is no pregnancy to plan by.
        var stands = state.Departure is null && state.Underneath is (AnimalStatus.Pregnant or AnimalStatus.PregnantCaution or AnimalStatus.Recheck);
        var dates = stands
            ? PregnancyDates.Of(state, rules)
            : null;
        if (dates is null && !withDeleted)
        {
            return null;
        }

        return new GestationMessage
        {
            ResourceType = "icarGestationResource",
            Id = $"gestation:{state.Animal}",
            Meta = animal.Meta(null, null, "gestation", isDeleted: dates is null),
            Location = animal.Location,
            Animal = AnimalBook.NameOf(state, state.Animal),
            ExpectedCalvingDate = dates is null ? animal.Modified : ExchangeTime.At(dates.Due, null, animal.Zone),
            Extension = new ExtensionContract
            {
                Animal = state.Animal,
                Status = StatusWords.Of(state.Status),
                Date = dates?.From.Date,
                DueFrom = dates?.DueFrom.Date,
                DueTo = dates?.DueTo.Date,
                DryOff = dates?.DryOff?.Date,
            },
        };
    }
}
