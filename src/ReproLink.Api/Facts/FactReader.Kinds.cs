using ReproLink.Api.Access;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Api.Facts;

/// <content>The kinds that carry more than a day.</content>
internal sealed partial class FactReader
{
    private const int MostCalvings = 30;
    private const int OldestEmbryo = 14;
    private const int MostIdentifiers = 20;

    private AnimalCard Card(ObjectReader reader)
    {
        var date = _door.Past(reader, "date");
        var born = _door.Past(reader, "born");
        return new AnimalCard(date ?? born ?? Day.Earliest)
        {
            Dated = date is not null,
            Born = born,
            Breed = Name(reader, "breed"),
            Parity = reader.Integer("parity", 0, MostCalvings),
            Pen = Name(reader, "pen"),
            Identifiers = Identifiers(reader),
        };
    }

    private static List<AnimalIdentifier> Identifiers(ObjectReader reader)
    {
        var identifiers = new List<AnimalIdentifier>();
        foreach (var element in reader.List("identifiers", MostIdentifiers, "a list of objects with scheme and id") ?? [])
        {
            var identifier = new ObjectReader(element, reader.Problems, reader.Path("identifiers", identifiers.Count));
            var scheme = identifier.IsObject ? identifier.Text("scheme", TextRule.Name, required: true) : null;
            var id = identifier.IsObject ? identifier.Text("id", TextRule.Label, required: true) : null;
            identifier.Done();
            identifiers.Add(new AnimalIdentifier(scheme ?? "", id ?? ""));
        }

        return identifiers;
    }

    private EmbryoTransfer Transfer(ObjectReader reader) =>
        new(Date(reader), reader.Integer("embryoAgeDays", 1, OldestEmbryo) ?? EmbryoTransfer.DefaultAgeDays)
        {
            EmbryoBreed = Name(reader, "embryoBreed"),
            Technician = Name(reader, "technician"),
            Sire = Name(reader, "sire"),
            SireBreed = Name(reader, "sireBreed"),
        };

    private Exposure Exposed(ObjectReader reader)
    {
        var date = _door.Past(reader, "date", required: true);
        var until = _door.Past(reader, "until");
        if (date is { } first && until is { } last && last < first)
        {
            reader.Refuse("until", ProblemTypes.InvalidValue, $"on or after 'date', {first}");
        }

        return new Exposure(date ?? Day.Earliest, until) { Sire = Name(reader, "sire"), SireBreed = Name(reader, "sireBreed") };
    }

    private Examination Examined(ObjectReader reader) =>
        new(Date(reader),
            reader.Word("method", FactVocabulary.ExaminationMethods, required: true) ?? default,
            reader.Word("outcome", FactVocabulary.Outcomes, required: true) ?? default)
        {
            CorpusLuteum = reader.Truth("corpusLuteum"),
            Examiner = Name(reader, "examiner"),
        };

    private Treatment Treated(ObjectReader reader)
    {
        var agent = reader.Word("agent", FactVocabulary.Agents, required: true) ?? default;
        var notDone = reader.Truth("notDone") ?? false;
        var reason = Words(reader, "reason");
        if (reason is not null && !notDone)
        {
            reader.Refuse("reason", ProblemTypes.InvalidValue, "only beside 'notDone' true");
        }

        return new Treatment(Date(reader), agent, notDone) { Reason = reason };
    }

    private Sample Sampled(ObjectReader reader) => new(Date(reader))
    {
        Specimen = reader.Word("specimen", FactVocabulary.Specimens) is { } specimen ? FactVocabulary.Specimens.Word(specimen) : null,
        Tube = reader.Text("tube", TextRule.Name),
    };

    private Confirm Confirmed(ObjectReader reader)
    {
        if (!request.Caller.Can(Permissions.Confirm))
        {
            reader.Refuse("kind", ProblemTypes.NotPermitted, "a key with one of the roles " + Caller.RolesThatCan(Permissions.Confirm),
                $"The key '{request.Caller.Name}' may not confirm facts; roles that may: {Caller.RolesThatCan(Permissions.Confirm)}.");
        }

        var date = _door.Past(reader, "date");
        var confirms = reader.Object("confirms", required: true);
        var source = confirms?.Text("source", TextRule.Name, required: true);
        var sourceId = confirms?.Text("sourceId", TextRule.Name, required: true);
        confirms?.Done();
        return new Confirm(date ?? Day.Earliest, source ?? "", sourceId ?? "") { Dated = date is not null, Reason = Words(reader, "reason") };
    }
}
