using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>The kinds that carry most.</summary>
internal static partial class FactDecoder
{
    private static AnimalCard Card(in FactStamp stamp, in EncodedFact row, FactTexts texts) => new(new Day(row.Day))
    {
        Id = stamp.Id,
        Source = stamp.Source,
        SourceId = stamp.SourceId,
        Recorded = stamp.Recorded,
        Time = TimeOf(row.Time),
        Dated = Flag(row.Code),
        Parity = (row.Code & 2) == 0 ? null : (int)(row.Code >> 2),
        Born = DayOf(row.Number),
        Breed = texts.Breed,
        Pen = texts.Pen,
        Identifiers = texts.Identifiers ?? [],
    };

    private static TestResult Result(in FactStamp stamp, in EncodedFact row, FactTexts texts) => new(new Day(row.Day), Method(row.Code), OutcomeOf(row.Code))
    {
        Id = stamp.Id,
        Source = stamp.Source,
        SourceId = stamp.SourceId,
        Recorded = stamp.Recorded,
        Time = TimeOf(row.Time),
        ReportedAt = Ticks.From(row.Number),
        Value = row.Value,
        Unit = texts.Unit,
        Assay = texts.Assay,
        Specimen = texts.Specimen,
        Tube = texts.Tube,
    };

    private static Examination Examined(in FactStamp stamp, in EncodedFact row, FactTexts texts) => new(new Day(row.Day), Method(row.Code), (Outcome)((row.Code >> 3) & 7))
    {
        Id = stamp.Id,
        Source = stamp.Source,
        SourceId = stamp.SourceId,
        Recorded = stamp.Recorded,
        Time = TimeOf(row.Time),
        ReportedAt = Ticks.From(row.Number),
        CameAsResult = (row.Code & 64) != 0,
        CorpusLuteum = ((row.Code >> 7) & 3) switch { 1 => false, 2 => true, _ => null },
        Examiner = texts.Examiner,
    };

    private static Confirm Confirmed(in FactStamp stamp, in EncodedFact row, FactTexts texts) => new(new Day(row.Day), texts.Source ?? "", texts.SourceId ?? "")
    {
        Id = stamp.Id,
        Source = stamp.Source,
        SourceId = stamp.SourceId,
        Recorded = stamp.Recorded,
        Time = TimeOf(row.Time),
        Dated = Flag(row.Code),
        Reason = texts.Reason,
    };

    private static LocalTime? TimeOf(int milliseconds) =>
        milliseconds == FactEncoder.NoTime ? null : LocalTime.FromMillisecondsSinceMidnight(milliseconds);

    private static bool Flag(long code) => (code & 1) != 0;

    private static TestMethod Method(long code) => (TestMethod)(code & 7);

    private static Outcome? OutcomeOf(long code) => ((code >> 3) & 7) is var outcome && outcome == 0 ? null : (Outcome)outcome;

    private static Day? DayOf(long? number) => number is { } n ? new Day((int)n) : null;
}
