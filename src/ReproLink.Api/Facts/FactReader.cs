using ReproLink.Api.Access;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Calendar.Rounds;
using ReproLink.Records;

namespace ReproLink.Api.Facts;

/// <summary>One item of a batch to a fact, or to everything that is wrong with it.</summary>
internal sealed partial class FactReader(HerdRequest request)
{
    private readonly Door _door = new(request);

    /// <summary>Reads one fact.</summary>
    /// <param name="item">The item.</param>
    /// <param name="problems">Gets what is wrong; when it gets anything, there is no draft.</param>
    /// <returns>The fact, and its sourceId as far as it could be read.</returns>
    public (FactDraft? Draft, string? SourceId) Read(BatchItem item, FieldProblems problems)
    {
        var reader = new ObjectReader(item.Element, problems);
        if (!reader.IsObject)
        {
            return (null, null);
        }

        var sourceId = reader.Text("sourceId", TextRule.Name, required: true);
        var source = reader.Text("source", TextRule.Name) ?? request.Caller.Name;
        if (source == Storage.Source)
        {
            reader.Refuse("source", ProblemTypes.InvalidValue, $"any but '{Storage.Source}'", $"The source '{Storage.Source}' is kept for the samples of sampling rounds.");
        }

        var animal = reader.Text("animal", TextRule.Name, required: true);
        var time = reader.Time("time");
        if (reader.Has("recordedAt"))
        {
            reader.Refuse("recordedAt", ProblemTypes.UnknownProperty, "not to be sent", "'recordedAt' is stamped by the service and never accepted.");
            reader.Ignore("recordedAt");
        }

        if (reader.Word("kind", FactVocabulary.Kinds, required: true) is not { } kind)
        {
            // Which other properties are right hangs on the kind; nothing sure can be said of them.
            return (null, sourceId);
        }

        var fact = OfKind(kind, reader);
        reader.Done();
        return problems.Any ? (null, sourceId) : (new FactDraft(animal!, fact with { Source = source, SourceId = sourceId!, Time = time }), sourceId);
    }

    // Where something required is wrong a stand-in takes its place: the fact is thrown away then, but all its problems are known.
    private Fact OfKind(FactKind kind, ObjectReader reader) => kind switch
    {
        FactKind.Animal => Card(reader),
        FactKind.Calving => new Calving(Date(reader)),
        FactKind.Insemination => new Insemination(Date(reader))
        {
            Sire = Name(reader, "sire"),
            SireBreed = Name(reader, "sireBreed"),
            Technician = Name(reader, "technician"),
        },
        FactKind.NaturalService => new NaturalService(Date(reader)) { Sire = Name(reader, "sire"), SireBreed = Name(reader, "sireBreed") },
        FactKind.EmbryoTransfer => Transfer(reader),
        FactKind.Exposure => Exposed(reader),
        FactKind.Oestrus => new Oestrus(Date(reader)),
        FactKind.Loss => new Loss(Date(reader), reader.Truth("examined") ?? false),
        FactKind.Treatment => Treated(reader),
        FactKind.Examination => Examined(reader),
        FactKind.DoNotBreed => new DoNotBreed(Date(reader)) { Reason = Words(reader, "reason") },
        FactKind.BreedAgain => new BreedAgain(Date(reader)),
        FactKind.DryOff => new DryOff(Date(reader)),
        FactKind.Arrival => new Arrival(Date(reader)),
        FactKind.Departure => new Departure(Date(reader)) { Reason = Words(reader, "reason") },
        FactKind.Sample => Sampled(reader),
        _ => Confirmed(reader),
    };

    private Day Date(ObjectReader reader) => _door.Past(reader, "date", required: true) ?? Day.Earliest;

    private static string? Name(ObjectReader reader, string name) => reader.Text(name, TextRule.Label);

    private static string? Words(ObjectReader reader, string name) => reader.Text(name, TextRule.Words);
}
