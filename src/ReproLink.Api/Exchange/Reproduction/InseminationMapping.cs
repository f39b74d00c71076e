using ReproLink.Api.Exchange.Events;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Reproduction;

/// <summary>Services.</summary>
internal static class InseminationMapping
{
    private const int OldestEmbryo = 14;
    private const int MostSires = 100;

    private static readonly Vocabulary<FactKind> Types = new(
        ("NaturalService", FactKind.NaturalService), ("RunWithBull", FactKind.Exposure),
        ("Insemination", FactKind.Insemination), ("Implantation", FactKind.EmbryoTransfer));

    public static readonly EventNoun Inseminations = new EventNoun<InseminationEvent>(
        "inseminations", "insemination", "icarReproInseminationEventResource",
        new KindSet(FactKind.Insemination, FactKind.NaturalService, FactKind.Exposure, FactKind.EmbryoTransfer), Write)
    {
        AlsoCalled = "icarReproInsemonationEventResource",
        Read = Read,
        Description = """
            Inseminations at most 3 days apart count as one service. An implantation counts from the recipient's oestrus, seven days before it unless our
            extension says `embryoAgeDays`. A spell with a bull runs to `eventEndDateTime`.
            """,
        Example = """
            "eventDateTime":"2026-09-10T13:00:00Z","inseminationType":"Insemination","responsible":"Kim","straw":{"resourceType":"icarReproSemenStrawResource","sireOfficialName":"B77"}
            """,
    };

    private static Fact Read(EventInput input)
    {
        var (day, time) = input.When();
        var reader = input.Reader;
        var type = reader.Word("inseminationType", Types, required: true) ?? FactKind.Insemination;
        var sire = Sire(reader.Object("straw")) ?? Sire(reader);
        var extension = input.Extension();
        var breed = extension?.Text("sireBreed", TextRule.Label) ?? Breeds.Read(reader, "sirePrimaryBreed");
        var technician = reader.Text("responsible", TextRule.Label);
        switch (type)
        {
            case FactKind.Exposure:
                var until = input.Moment(reader, "eventEndDateTime")?.Day;
                if (until < day)
                {
                    reader.Refuse("eventEndDateTime", ProblemTypes.InvalidValue, "not before 'eventDateTime'");
                }

                return new Exposure(day, until) { Time = time, Sire = sire, SireBreed = breed };
            case FactKind.NaturalService:
                return new NaturalService(day) { Time = time, Sire = sire, SireBreed = breed };
            case FactKind.EmbryoTransfer:
                return new EmbryoTransfer(day, extension?.Integer("embryoAgeDays", 1, OldestEmbryo) ?? EmbryoTransfer.DefaultAgeDays)
                {
                    Time = time,
                    Sire = Sire(reader.Object("embryo")) ?? sire,
                    SireBreed = breed,
                    EmbryoBreed = extension?.Text("embryoBreed", TextRule.Label),
                    Technician = technician,
                };
            default:
                return new Insemination(day) { Time = time, Sire = sire, SireBreed = breed, Technician = technician };
        }
    }

    private static string? Sire(ObjectReader? reader) => reader is null ? null
        : reader.Text("sireOfficialName", TextRule.Label)
            ?? (reader.List("sireIdentifiers", MostSires, "a list of identifiers") is [var first, ..]
                ? new ObjectReader(first, reader.Problems, reader.Path("sireIdentifiers", 0), tolerant: true) is { IsObject: true } identifier ? identifier.Text("id", TextRule.Label, required: true) : null
                : null);

    private static InseminationEvent Write(EventOutput output)
    {
        var (service, exposure) = (output.Fact as Service, output.Fact as Exposure);
        var sire = service?.Sire ?? exposure?.Sire;
        var transfer = output.Fact as EmbryoTransfer;
        return new InseminationEvent
        {
            InseminationType = Types.Word(output.Fact.Kind),
            Straw = output.Fact is Insemination && sire is not null ? new StrawContract { SireOfficialName = sire } : null,
            SireOfficialName = output.Fact is Insemination ? null : sire,
            EventEndDateTime = exposure?.Until is { } until ? ExchangeTime.At(until, null, output.Pen.Zone) : null,
            Responsible = service?.Technician,
            Extension = output.Extension() with
            {
                SireBreed = service?.SireBreed ?? exposure?.SireBreed,
                EmbryoAgeDays = transfer?.EmbryoAgeDays,
                EmbryoBreed = transfer?.EmbryoBreed,
            },
        };
    }
}
