using System.Collections.Frozen;
using ReproLink.Api.Reading;

namespace ReproLink.Api.Facts;

/// <summary>The columns of facts as CSV: the names of the properties.</summary>
internal static class FactCsv
{
    public static readonly CsvShape Shape = new(
        FrozenSet.Create<string>(
            "sourceId", "source", "kind", "animal", "date", "time", "born", "breed", "parity", "pen", "identifiers", "sire", "sireBreed",
            "technician", "embryoAgeDays", "embryoBreed", "until", "examined", "agent", "notDone", "method", "outcome", "corpusLuteum",
            "examiner", "specimen", "tube", "confirms.source", "confirms.sourceId", "reason"),
        Numbers: FrozenSet.Create<string>("parity", "embryoAgeDays"),
        Truths: FrozenSet.Create<string>("examined", "notDone", "corpusLuteum"),
        Lists: FrozenSet.Create<string>("identifiers"));
}
