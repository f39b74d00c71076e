using System.Globalization;
using ReproLink.Api.Transfer;

namespace ReproLink.Api.Accuracy;

/// <summary>The published accuracies as CSV: one line a study, with the herd's predictive values.</summary>
internal static class TestAccuracyCsv
{
    private static readonly string[] Header =
    [
        "id", "study", "doi", "test", "method", "specimen", "days", "animals", "sensitivity", "sensitivityLow", "sensitivityHigh", "specificity",
        "specificityLow", "specificityHigh", "inconclusive", "counts", "evidence", "check", "notUsable", "positivePredictiveHere",
        "positivePredictiveHereLow", "positivePredictiveHereHigh", "negativePredictiveHere", "negativePredictiveHereLow", "negativePredictiveHereHigh", "note",
    ];

    public static string Write(TestAccuracyAnswer answer) => CsvSheet.Write(Header, answer.Studies.Select(Cells));

    private static string?[] Cells(StudyAnswer study) =>
    [
        study.Id, study.Study, study.Doi, study.Test, study.Method, study.Specimen, study.Days, study.Animals?.ToString(CultureInfo.InvariantCulture),
        .. Three(study.Sensitivity), .. Three(study.Specificity), Text(study.Inconclusive), study.Counts, study.Evidence, study.Check, study.NotUsable,
        .. Three(study.PositivePredictiveHere), .. Three(study.NegativePredictiveHere), study.Note,
    ];

    private static string?[] Three(EstimateContract? estimate) => [Text(estimate?.Value), Text(estimate?.Low), Text(estimate?.High)];

    private static string? Text(double? number) => number?.ToString("0.######", CultureInfo.InvariantCulture);
}
