using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Animals;

/// <summary>Whom an identifier in a message means.</summary>
/// <param name="Name">The herd's own name of her; for one not on record the name she will have.</param>
/// <param name="State">She, when she is on record.</param>
/// <param name="Implied">A card that notes the identifier, where no card on record carries it yet.</param>
/// <param name="Carriers">Several animals that carry it: whom it means cannot be said.</param>
internal sealed record NamedAnimal(string Name, AnimalState? State, FactDraft? Implied, IReadOnlyList<AnimalState> Carriers)
{
    public bool IsAmbiguous => Carriers.Count > 0;
}

/// <summary>
/// Ties identifiers to animals: by the identifiers on their cards, else by the herd's own name, else it is a new animal named
/// by the id. The name never hangs on what else a message says, so that the order of messages does not matter.
/// </summary>
internal sealed class AnimalResolver(HerdView view)
{
    private readonly AnimalBook _book = AnimalBook.Of(view);
    private readonly Dictionary<string, string> _newSchemes = new(StringComparer.Ordinal);

    public NamedAnimal Resolve(string scheme, string id)
    {
        if (scheme == ExchangeWords.AnimalScheme)
        {
            return new NamedAnimal(id, view.Find(id), null, []);
        }

        var carriers = _book.With(scheme, id);
        if (carriers.Count > 1)
        {
            return new NamedAnimal(id, null, null, carriers);
        }

        if (carriers is [var carrier])
        {
            return new NamedAnimal(carrier.Animal, carrier, null, []);
        }

        var named = view.Find(id);
        if (named is not null && !AnimalBook.CarriesOther(named, scheme, id) && !IsOthers(named, scheme))
        {
            return new NamedAnimal(id, named, Implied(id, scheme, id), []);
        }

        // The name is taken by an animal with another identifier of that scheme: two animals must never become one.
        var name = named is null && _newSchemes.GetValueOrDefault(id, scheme) == scheme ? id : $"{id} ({scheme})";
        _newSchemes.TryAdd(id, scheme);
        return new NamedAnimal(name, view.Find(name), Implied(name, scheme, id), []);
    }

    /// <summary>The animals a query for an identifier means.</summary>
    public IReadOnlyCollection<string> Named(string scheme, string id)
    {
        var carriers = scheme == ExchangeWords.AnimalScheme ? [] : _book.With(scheme, id);
        return carriers.Count > 0 ? [.. carriers.Select(c => c.Animal)] : [Resolve(scheme, id).Name];
    }

    // An animal that an event named by the same id in another scheme is another animal.
    private static bool IsOthers(AnimalState named, string scheme) =>
        AnimalBook.IdentifiersOf(named).Any() && AnimalBook.IdentifiersOf(named).All(i => i.Id == named.Animal && i.Scheme != scheme);

    private static FactDraft Implied(string name, string scheme, string id) => new(name, new AnimalCard(Day.Earliest)
    {
        Source = ExchangeWords.IdentifierSource,
        SourceId = $"{scheme}/{AnimalBook.Key(id)}",
        Identifiers = [new AnimalIdentifier(scheme, id)],
    });
}
