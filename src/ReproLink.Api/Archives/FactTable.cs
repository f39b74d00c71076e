using System.Text.Json;
using ReproLink.Api.Composition;
using ReproLink.Api.Facts;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>Facts other than results.</summary>
internal static class FactTable
{
    public static readonly string[] Columns =
    [
        "order", "factId", "source", "sourceId", "kind", "animal", "date", "time", "born", "breed", "parity", "pen", "identifiers", "countsFrom", "sire", "sireBreed",
        "technician", "embryoAgeDays", "embryoBreed", "until", "examined", "agent", "notDone", "method", "outcome", "reported", "corpusLuteum", "examiner",
        "specimen", "tube", "dispatched", "confirms.source", "confirms.sourceId", "reason", .. RecordedCells.Columns,
    ];

    public static string?[] Write(KeptFact kept)
    {
        var fact = kept.Fact;
        var card = fact as AnimalCard;
        var service = fact as Service;
        var transfer = fact as EmbryoTransfer;
        var exposure = fact as Exposure;
        var treatment = fact as Treatment;
        var examination = fact as Examination;
        var sample = fact as Sample;
        var confirm = fact as Confirm;
        var isDated = card?.Dated ?? confirm?.Dated ?? true;
        return
        [
            ArchiveText.Of(kept.Order), fact.Id.ToString(), fact.Source, fact.SourceId, FactVocabulary.KindWord(fact.Kind), kept.Animal,
            isDated ? ArchiveText.Of(fact.Day) : null, ArchiveText.Of(fact.Time),
            ArchiveText.Of(card?.Born), card?.Breed, ArchiveText.Of(card?.Parity), card?.Pen, card is null ? null : Identifiers(card.Identifiers),
            isDated ? null : ArchiveText.Of(fact.Day),
            service?.Sire ?? exposure?.Sire, service?.SireBreed ?? exposure?.SireBreed, service?.Technician,
            ArchiveText.Of(transfer?.EmbryoAgeDays), transfer?.EmbryoBreed, ArchiveText.Of(exposure?.Until), ArchiveText.Of((fact as Loss)?.Examined),
            treatment is null ? null : FactVocabulary.Agents.Word(treatment.Agent), ArchiveText.Of(treatment?.NotDone),
            examination is null ? null : FactVocabulary.Methods.Word(examination.Method), examination is null ? null : FactVocabulary.Outcomes.Word(examination.Outcome),
            ArchiveText.Of(examination?.ReportedAt), ArchiveText.Of(examination?.CorpusLuteum), examination?.Examiner,
            sample?.Specimen, sample?.Tube, ArchiveText.Of(sample?.Dispatched), confirm?.ConfirmsSource, confirm?.ConfirmsSourceId,
            (fact as DoNotBreed)?.Reason ?? (fact as Departure)?.Reason ?? (fact as Treatment)?.Reason ?? confirm?.Reason, .. RecordedCells.Write(kept),
        ];
    }

    public static KeptFact Read(ArchiveLine line, Day latest)
    {
        var undated = line.DayOrNull("countsFrom");
        var day = undated ?? NotLater(line, "date", line.DayOf("date"), latest);
        var fact = OfKind(line, line.Word("kind", FactVocabulary.Kinds), day, undated is null, latest);
        return RecordedCells.Read(line, line.NameOf("animal"), fact with { Time = line.Time("time") });
    }

    // Facts are things that happened (rule F4), also when they come back.
    public static Day NotLater(ArchiveLine line, string column, Day day, Day latest)
    {
        if (day > latest)
        {
            line.Refuse(column, $"at most {latest}, one day after the herd's today");
        }

        return day;
    }

    private static Fact OfKind(ArchiveLine line, FactKind kind, Day day, bool dated, Day latest) => kind switch
    {
        FactKind.Animal => new AnimalCard(day)
        {
            Dated = dated,
            Born = line.DayOrNull("born"),
            Breed = line.WordsOf("breed"),
            Parity = line.WholeOrNull("parity"),
            Pen = line.WordsOf("pen"),
            Identifiers = Identifiers(line),
        },
        FactKind.Calving => new Calving(day),
        FactKind.Insemination => new Insemination(day) { Sire = line.WordsOf("sire"), SireBreed = line.WordsOf("sireBreed"), Technician = line.WordsOf("technician") },
        FactKind.NaturalService => new NaturalService(day) { Sire = line.WordsOf("sire"), SireBreed = line.WordsOf("sireBreed"), Technician = line.WordsOf("technician") },
        FactKind.EmbryoTransfer => new EmbryoTransfer(day, line.Whole("embryoAgeDays"))
        {
            EmbryoBreed = line.WordsOf("embryoBreed"),
            Sire = line.WordsOf("sire"),
            SireBreed = line.WordsOf("sireBreed"),
            Technician = line.WordsOf("technician"),
        },
        FactKind.Exposure => new Exposure(day, line.DayOrNull("until") is { } until ? NotLater(line, "until", until, latest) : null) { Sire = line.WordsOf("sire"), SireBreed = line.WordsOf("sireBreed") },
        FactKind.Oestrus => new Oestrus(day),
        FactKind.Loss => new Loss(day, line.Truth("examined") ?? false),
        FactKind.Treatment => new Treatment(day, line.Word("agent", FactVocabulary.Agents), line.Truth("notDone") ?? false) { Reason = line.WordsOf("reason") },
        FactKind.Examination => new Examination(day, line.Word("method", FactVocabulary.Methods), line.Word("outcome", FactVocabulary.Outcomes))
        {
            ReportedAt = line.MomentOrNull("reported"),
            CorpusLuteum = line.Truth("corpusLuteum"),
            Examiner = line.WordsOf("examiner"),
        },
        FactKind.DoNotBreed => new DoNotBreed(day) { Reason = line.WordsOf("reason") },
        FactKind.BreedAgain => new BreedAgain(day),
        FactKind.DryOff => new DryOff(day),
        FactKind.Arrival => new Arrival(day),
        FactKind.Departure => new Departure(day) { Reason = line.WordsOf("reason") },
        FactKind.Sample => new Sample(day) { Specimen = line.WordsOf("specimen"), Tube = line.WordsOf("tube"), Dispatched = line.DayOrNull("dispatched") },
        _ => new Confirm(day, line.NameOf("confirms.source"), line.NameOf("confirms.sourceId")) { Dated = dated, Reason = line.WordsOf("reason") },
    };

    // As people write them, unless that would be read otherwise.
    private static string? Identifiers(IReadOnlyList<AnimalIdentifier> identifiers)
    {
        if (identifiers.Count == 0)
        {
            return null;
        }

        var plain = string.Join(';', identifiers.Select(i => $"{i.Scheme}={i.Id}"));
        return identifiers.SequenceEqual(Plain(plain)) && plain[0] != '['
            ? plain
            : JsonSerializer.Serialize(identifiers.Select(i => new[] { i.Scheme, i.Id }), JsonSetup.Options);
    }

    private static AnimalIdentifier[] Identifiers(ArchiveLine line)
    {
        if (line.RawOrNull("identifiers") is not { } text)
        {
            return [];
        }

        if (text[0] != '[')
        {
            return Plain(text);
        }

        try
        {
            if (JsonSerializer.Deserialize<string[][]>(text) is { } pairs && pairs.All(p => p is [{ }, { }]))
            {
                return [.. pairs.Select(p => new AnimalIdentifier(p[0], p[1]))];
            }
        }
        catch (JsonException)
        {
            // Said below.
        }

        line.Refuse("identifiers", "scheme=id;scheme=id");
        return [];
    }

    private static AnimalIdentifier[] Plain(string text) => [.. text.Split(';').Select(part =>
    {
        var at = part.IndexOf('=', StringComparison.Ordinal);
        return at < 0 ? new AnimalIdentifier(part, "") : new AnimalIdentifier(part[..at], part[(at + 1)..]);
    })];
}
