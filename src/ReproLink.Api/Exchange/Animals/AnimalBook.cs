using System.Runtime.CompilerServices;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Animals;

/// <summary>Which animal an identifier belongs to, and how an animal is named to others. Made once a view, when first asked.</summary>
internal sealed class AnimalBook
{
    private static readonly ConditionalWeakTable<IReadOnlyList<AnimalState>, AnimalBook> Made = [];

    private readonly Dictionary<(string Scheme, string Key), List<AnimalState>> _byIdentifier = [];

    private AnimalBook(IReadOnlyList<AnimalState> animals)
    {
        foreach (var animal in animals)
        {
            foreach (var identifier in IdentifiersOf(animal))
            {
                var key = (identifier.Scheme, Key(identifier.Id));
                var carriers = _byIdentifier.TryGetValue(key, out var list) ? list : _byIdentifier[key] = [];
                if (!carriers.Contains(animal))
                {
                    carriers.Add(animal);
                }
            }
        }
    }

    // The list is the same as long as the fold is; a view is made for every moment it is looked at.
    public static AnimalBook Of(HerdView view) => Made.GetValue(view.Animals, animals => new AnimalBook(animals));

    /// <summary>Ids are kept as received and compared without blanks: NL 6802 5082 9 is NL680250829.</summary>
    public static string Key(string id) => id.Replace(" ", "", StringComparison.Ordinal);

    /// <summary>The animals that carry an identifier; what somebody sent of them goes before what an event implied.</summary>
    public IReadOnlyList<AnimalState> With(string scheme, string id)
    {
        if (!_byIdentifier.TryGetValue((scheme, Key(id)), out var carriers))
        {
            return [];
        }

        if (carriers.Count == 1)
        {
            return carriers;
        }

        var sent = carriers.Where(animal => Cards(animal).Where(IsSent).SelectMany(card => card.Identifiers).Any(i => Is(i, scheme, id))).ToArray();
        return sent.Length > 0 ? sent : carriers;
    }

    /// <summary>Whether an animal carries an identifier.</summary>
    public bool Carries(AnimalState animal, string scheme, string id) =>
        _byIdentifier.TryGetValue((scheme, Key(id)), out var carriers) && carriers.Contains(animal);

    /// <summary>Whether an animal carries another id of the same scheme.</summary>
    public static bool CarriesOther(AnimalState animal, string scheme, string id) =>
        IdentifiersOf(animal).Any(i => i.Scheme == scheme) && !IdentifiersOf(animal).Any(i => Is(i, scheme, id));

    /// <summary>How an animal is named to others: by her card's first identifier; without any, by the herd's own name.</summary>
    public static ExchangeIdentifier NameOf(AnimalState? animal, string name) =>
        animal is not null && IdentifiersOf(animal).FirstOrDefault(i => i.Scheme != ExchangeWords.TagScheme) is { } first
            ? new ExchangeIdentifier { Scheme = first.Scheme, Id = first.Id }
            : new ExchangeIdentifier { Scheme = ExchangeWords.AnimalScheme, Id = name };

    /// <summary>Every identifier, those of the card that counts first.</summary>
    public static IEnumerable<AnimalIdentifier> IdentifiersOf(AnimalState animal) =>
        (animal.Card?.Identifiers ?? []).Concat(Cards(animal).SelectMany(card => card.Identifiers)).Distinct();

    /// <summary>Whether a card came from somebody, and not from an event that named an animal.</summary>
    public static bool IsSent(AnimalCard card) => card.Source != ExchangeWords.IdentifierSource;

    private static IEnumerable<AnimalCard> Cards(AnimalState animal) => animal.History.Facts.OfType<AnimalCard>();

    private static bool Is(AnimalIdentifier identifier, string scheme, string id) => identifier.Scheme == scheme && Key(identifier.Id) == Key(id);
}
