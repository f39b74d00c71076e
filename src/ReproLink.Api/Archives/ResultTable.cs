using ReproLink.Api.Facts;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;
using ReproLink.Records;

namespace ReproLink.Api.Archives;

/// <summary>Results of tests, and examinations that came as results.</summary>
internal static class ResultTable
{
    public static readonly string[] Finding =
        ["sampled", "time", "reported", "method", "specimen", "tube", "outcome", "value", "unit", "assay", "corpusLuteum", "examiner"];

    public static readonly string[] Columns = ["order", "factId", "source", "sourceId", "animal", .. Finding, .. RecordedCells.Columns];

    public static bool IsResult(Fact fact) => fact is TestResult or Examination { CameAsResult: true };

    public static string?[] Write(KeptFact kept) =>
    [
        ArchiveText.Of(kept.Order), kept.Fact.Id.ToString(), kept.Fact.Source, kept.Fact.SourceId, kept.Animal, .. WriteFinding(kept.Fact), .. RecordedCells.Write(kept),
    ];

    public static KeptFact Read(ArchiveLine line, Day latest)
    {
        var fact = ReadFinding(line);
        FactTable.NotLater(line, "sampled", fact.Day, latest);
        return RecordedCells.Read(line, line.NameOf("animal"), fact);
    }

    public static string?[] WriteFinding(Fact fact)
    {
        var test = fact as TestResult;
        var examination = fact as Examination;
        return
        [
            ArchiveText.Of(fact.Day), ArchiveText.Of(fact.Time), ArchiveText.Of(test?.ReportedAt ?? examination?.ReportedAt),
            FactVocabulary.Methods.Word(test?.Method ?? examination!.Method), test?.Specimen, test?.Tube,
            (test is null ? examination?.Outcome : test.Outcome) is { } outcome ? FactVocabulary.Outcomes.Word(outcome) : null,
            ArchiveText.Of(test?.Value), test?.Unit, test?.Assay, ArchiveText.Of(examination?.CorpusLuteum), examination?.Examiner,
        ];
    }

    public static Fact ReadFinding(ArchiveLine line)
    {
        var (day, method) = (line.DayOf("sampled"), line.Word("method", FactVocabulary.Methods));
        Fact fact = method.IsExamination()
            ? new Examination(day, method, line.Word("outcome", FactVocabulary.Outcomes))
            {
                ReportedAt = line.MomentOrNull("reported"),
                CameAsResult = true,
                CorpusLuteum = line.Truth("corpusLuteum"),
                Examiner = line.WordsOf("examiner"),
            }
            : new TestResult(day, method, line.WordOrNull("outcome", FactVocabulary.Outcomes))
            {
                ReportedAt = line.MomentOrNull("reported"),
                Value = line.Number("value"),
                Unit = line.WordsOf("unit"),
                Assay = line.WordsOf("assay"),
                Specimen = line.WordsOf("specimen"),
                Tube = line.WordsOf("tube"),
            };
        return fact with { Time = line.Time("time") };
    }
}
