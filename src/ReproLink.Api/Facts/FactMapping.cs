using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Facts;

internal static class FactMapping
{
    public static FactAnswer Answer(string animal, Fact fact)
    {
        var bare = new FactAnswer
        {
            FactId = fact.Id.ToString(),
            Source = fact.Source,
            SourceId = fact.SourceId,
            Kind = FactVocabulary.KindWord(fact.Kind),
            Animal = animal,
            Date = fact is AnimalCard { Dated: false } or Confirm { Dated: false } ? null : fact.Day.Date,
            Time = fact.Time,
            RecordedAt = fact.Recorded,
        };
        return fact switch
        {
            AnimalCard card => OfCard(bare, card),
            Service service => OfService(bare, service),
            TestResult result => OfResult(bare, result),
            Examination examination => OfExamination(bare, examination),
            _ => OfOther(bare, fact),
        };
    }

    public static FactResult Accepted(FactDraft draft, AppendAnswer answer, IReadOnlyList<WarningContract> warnings) => new()
    {
        SourceId = draft.Fact.SourceId,
        Status = StatusWord(answer.Status),
        FactId = answer.Id.ToString(),
        Warnings = warnings,
    };

    public static FactResult Rejected(BatchItem item, string? sourceId, IReadOnlyList<FieldProblem> problems)
    {
        var list = problems.Select(p => Problem.OfItem(p, item.Index, item.Line)).ToArray();
        return new FactResult { SourceId = sourceId, Status = "rejected", Problem = list[0], Problems = list };
    }

    public static string StatusWord(AppendStatus status) => status switch
    {
        AppendStatus.Accepted => "accepted",
        AppendStatus.Replaced => "replaced",
        _ => "duplicate",
    };

    public static IReadOnlyList<IdentifierContract> Identifiers(IReadOnlyList<AnimalIdentifier> identifiers) =>
        [.. identifiers.Select(i => new IdentifierContract { Scheme = i.Scheme, Id = i.Id })];

    private static FactAnswer OfCard(FactAnswer bare, AnimalCard card) => bare with
    {
        Born = card.Born?.Date,
        Breed = card.Breed,
        Parity = card.Parity,
        Pen = card.Pen,
        Identifiers = card.Identifiers.Count == 0 ? null : Identifiers(card.Identifiers),
    };

    private static FactAnswer OfService(FactAnswer bare, Service service) => bare with
    {
        Sire = service.Sire,
        SireBreed = service.SireBreed,
        Technician = service.Technician,
        EmbryoAgeDays = (service as EmbryoTransfer)?.EmbryoAgeDays,
        EmbryoBreed = (service as EmbryoTransfer)?.EmbryoBreed,
    };

    private static FactAnswer OfResult(FactAnswer bare, TestResult result) => bare with
    {
        Method = FactVocabulary.Methods.Word(result.Method),
        Outcome = result.Outcome is { } outcome ? FactVocabulary.Outcomes.Word(outcome) : null,
        Reported = result.ReportedAt,
        Value = result.Value,
        Unit = result.Unit,
        Assay = result.Assay,
        Specimen = result.Specimen,
        Tube = result.Tube,
    };

    private static FactAnswer OfExamination(FactAnswer bare, Examination examination) => bare with
    {
        Method = FactVocabulary.Methods.Word(examination.Method),
        Outcome = FactVocabulary.Outcomes.Word(examination.Outcome),
        Reported = examination.ReportedAt,
        CorpusLuteum = examination.CorpusLuteum,
        Examiner = examination.Examiner,
    };

    private static FactAnswer OfOther(FactAnswer bare, Fact fact) => fact switch
    {
        Exposure exposure => bare with { Until = exposure.Until?.Date, Sire = exposure.Sire, SireBreed = exposure.SireBreed },
        Loss loss => bare with { Examined = loss.Examined },
        Treatment treatment => bare with { Agent = FactVocabulary.Agents.Word(treatment.Agent), NotDone = treatment.NotDone ? true : null, Reason = treatment.Reason },
        DoNotBreed doNotBreed => bare with { Reason = doNotBreed.Reason },
        Departure departure => bare with { Reason = departure.Reason },
        Sample sample => bare with { Specimen = sample.Specimen, Tube = sample.Tube },
        Confirm confirm => bare with
        {
            Confirms = new ConfirmsContract { Source = confirm.ConfirmsSource, SourceId = confirm.ConfirmsSourceId },
            Reason = confirm.Reason,
        },
        _ => bare,
    };
}
