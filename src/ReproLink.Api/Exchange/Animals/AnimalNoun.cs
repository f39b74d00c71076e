using ReproLink.Api.Exchange.Conclusions;
using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Animals;

/// <summary>Cards come in like events; what goes out is the animal with everything concluded of her.</summary>
internal sealed record AnimalNoun() : EventNoun("animals", "animal", Type, new KindSet(FactKind.Animal))
{
    public const string Type = "icarAnimalCoreResource";

    public static readonly EventNoun Animals = new AnimalNoun
    {
        AnimalProperty = "identifier",
        Read = input => AnimalMapping.ReadCard(input.Reader, input, input.Animal),
        Description = """
            A card. `identifier` says whom it is about: an animal that carries it, else one the herd calls so, else a new one. The last card
            sent of an animal counts with its identifiers; her name in the herd stays. Cows and heifers only.
            """,
        Example = """
            "identifier":{"scheme":"us.bovine","id":"840003123456789"},"specie":"Cattle","gender":"Female","birthDate":"2022-03-01T00:00:00Z","managementTag":"1042"
            """,
    };

    public override Type Message => typeof(AnimalMessage);

    public override Type Page => typeof(MemberPage<AnimalMessage>);

    public override ExchangeResource Write(EventOutput output)
    {
        if (output.State is { } state && !output.Stored.IsDeleted)
        {
            var message = AnimalMapping.Write(new AnimalConclusion(output.Pen.View.Herd.Location, output.Pen.Zone, state, output.Stored.Modified));
            message.Self = output.Pen.Address(Path, output.Stored.Id.ToString());
            // The card asked for, also where another one counts.
            message.Meta = Meta(output);
            return message;
        }

        var card = (AnimalCard)output.Fact;
        var identifier = card.Identifiers.Count > 0
            ? new ExchangeIdentifier { Scheme = card.Identifiers[0].Scheme, Id = card.Identifiers[0].Id }
            : new ExchangeIdentifier { Scheme = ExchangeWords.AnimalScheme, Id = output.Stored.Animal };
        return new AnimalMessage
        {
            ResourceType = Type,
            Self = output.Pen.Address(Path, output.Stored.Id.ToString()),
            Meta = Meta(output),
            Location = ExchangeAddress.Identifier(output.Pen.View.Herd.Location),
            Identifier = identifier,
        };
    }

    public override object WritePage(PageView view, IEnumerable<EventOutput> outputs) =>
        new MemberPage<AnimalMessage> { View = view, Member = [.. outputs.Select(o => (AnimalMessage)Write(o))] };

    private static MetaContract Meta(EventOutput output) => new()
    {
        Source = output.Fact.Source,
        SourceId = output.Fact.SourceId,
        IsDeleted = output.Stored.IsDeleted ? true : null,
        Modified = output.Stored.Modified,
        Created = output.Fact.Recorded,
    };
}
