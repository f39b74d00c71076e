using ReproLink.Api.Exchange.Conclusions;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Api.Exchange.Movements;
using ReproLink.Api.Exchange.Reproduction;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Status;

namespace ReproLink.Api.Exchange.Animals;

/// <summary>Animals and their cards.</summary>
internal static class AnimalMapping
{
    private const int MostIdentifiers = 20;

    /// <summary>A card that says no more than whom an identifier means.</summary>
    public static AnimalCard Bare(ExchangeIdentifier identifier) =>
        new(Day.Earliest) { Identifiers = [new AnimalIdentifier(identifier.Scheme, identifier.Id)] };

    public static AnimalCard ReadCard(ObjectReader reader, EventInput input, ExchangeIdentifier identifier)
    {
        var born = input.Moment(reader, "birthDate")?.Day;
        RefuseOthers(reader, "gender", "Male", "MaleCryptorchid", "MaleNeuter");
        RefuseOthers(reader, "specie", "Buffalo", "Deer", "Elk", "Goat", "Horse", "Pig", "Sheep");
        var extension = reader.Object(ExchangeWords.Extension);
        return Bare(identifier) with
        {
            Day = born ?? Day.Earliest,
            Born = born,
            Breed = Breeds.Read(reader, "primaryBreed"),
            Pen = extension?.Text("pen", TextRule.Label),
            Parity = extension?.Integer("parity", 0, 30),
            Identifiers = [.. Identifiers(reader, identifier)],
        };
    }

    /// <summary>An animal, or that she is gone; null where there is nothing to tell.</summary>
    public static AnimalMessage? Conclude(AnimalConclusion animal, bool withDeleted)
    {
        // Whom an identifier means is noted once an event names her; without anything else it is nobody.
        var isThere = animal.State.History.Facts.Any(fact => fact is not AnimalCard card || AnimalBook.IsSent(card));
        if (!isThere && !withDeleted)
        {
            return null;
        }

        var message = Write(animal);
        return isThere ? message : message with { Meta = animal.Meta(null, null, "animal", isDeleted: true) };
    }

    public static AnimalMessage Write(AnimalConclusion animal)
    {
        var (state, name) = (animal.State, AnimalBook.NameOf(animal.State, animal.State.Animal));
        var sent = state.Card is { } card && AnimalBook.IsSent(card) ? card : null;
        return new AnimalMessage
        {
            ResourceType = AnimalNoun.Type,
            Meta = animal.Meta(sent?.Source, sent?.SourceId, "animal"),
            Location = animal.Location,
            Identifier = name,
            AlternativeIdentifiers = Others(state, name),
            BirthDate = state.Card?.Born is { } born ? ExchangeTime.At(born, null, animal.Zone) : null,
            PrimaryBreed = Breeds.Write(state.Card?.Breed),
            ManagementTag = AnimalBook.IdentifiersOf(state).FirstOrDefault(i => i.Scheme == ExchangeWords.TagScheme)?.Id ?? state.Animal,
            Status = state.Departure is not { } left ? "Alive" : MovementMapping.IsDeath(left) ? "Dead" : "OffFarm",
            ReproductionStatus = StatusMapping.Word(state),
            Extension = new ExtensionContract
            {
                Animal = state.Animal,
                FactId = sent?.Id.ToString(),
                Status = StatusWords.Of(state.Status),
                Parity = state.Parity,
                Pen = state.Card?.Pen,
            },
        };
    }

    private static ExchangeIdentifier[]? Others(AnimalState state, ExchangeIdentifier name)
    {
        var others = AnimalBook.IdentifiersOf(state)
            .Where(i => i.Scheme != ExchangeWords.TagScheme)
            .Select(i => new ExchangeIdentifier { Scheme = i.Scheme, Id = i.Id })
            .Append(new ExchangeIdentifier { Scheme = ExchangeWords.AnimalScheme, Id = state.Animal })
            .Where(i => i != name)
            .Distinct()
            .ToArray();
        return others.Length > 0 ? others : null;
    }

    private static IEnumerable<AnimalIdentifier> Identifiers(ObjectReader reader, ExchangeIdentifier first)
    {
        var all = new List<AnimalIdentifier>();
        if (first.Scheme != ExchangeWords.AnimalScheme)
        {
            all.Add(new AnimalIdentifier(first.Scheme, first.Id));
        }

        var others = reader.List("alternativeIdentifiers", MostIdentifiers, "a list of identifiers") ?? [];
        for (var i = 0; i < others.Count; i++)
        {
            var other = new ObjectReader(others[i], reader.Problems, reader.Path("alternativeIdentifiers", i), tolerant: true);
            if (other.IsObject && other.Text("scheme", TextRule.Name, required: true) is { } scheme && other.Text("id", TextRule.Name, required: true) is { } id
                && scheme != ExchangeWords.AnimalScheme)
            {
                all.Add(new AnimalIdentifier(scheme, id));
            }
        }

        if (reader.Text("managementTag", TextRule.Label) is { } tag)
        {
            all.Add(new AnimalIdentifier(ExchangeWords.TagScheme, tag));
        }

        return all.Distinct();
    }

    private static void RefuseOthers(ObjectReader reader, string name, params string[] others)
    {
        if (reader.Text(name, TextRule.Label) is { } word && others.Contains(word))
        {
            reader.Refuse(name, ProblemTypes.InvalidValue, "cows and heifers only: specie Cattle, gender Female");
        }
    }
}
