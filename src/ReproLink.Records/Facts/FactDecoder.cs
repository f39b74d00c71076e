using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>What identifies a stored fact, beside its content.</summary>
internal readonly record struct FactStamp(FactId Id, string Source, string SourceId, Instant Recorded);

/// <summary>The mirror of <see cref="FactEncoder"/>. One allocation a fact: every herd that is opened comes through here.</summary>
internal static class FactDecoder
{
    public static Fact Decode(in FactStamp stamp, in EncodedFact row, FactTexts texts)
    {
        var (id, source, sourceId, recorded) = stamp;
        var day = new Day(row.Day);
        LocalTime? time = row.Time == FactEncoder.NoTime ? null : LocalTime.FromMillisecondsSinceMidnight(row.Time);
        var code = row.Code;
        return (FactKind)row.Kind switch
        {
            FactKind.Animal => new AnimalCard(day)
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time,
                Dated = Flag(code),
                Parity = (code & 2) == 0 ? null : (int)(code >> 2),
                Born = DayOf(row.Number),
                Breed = texts.Breed,
                Pen = texts.Pen,
                Identifiers = texts.Identifiers ?? [],
            },
            FactKind.Arrival => new Arrival(day) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.Calving => new Calving(day) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.Loss => new Loss(day, Flag(code)) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.Oestrus => new Oestrus(day) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.Insemination => new Insemination(day)
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time,
                Sire = texts.Sire, SireBreed = texts.SireBreed, Technician = texts.Technician,
            },
            FactKind.NaturalService => new NaturalService(day)
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time,
                Sire = texts.Sire, SireBreed = texts.SireBreed, Technician = texts.Technician,
            },
            FactKind.EmbryoTransfer => new EmbryoTransfer(day, (int)(row.Number ?? 0))
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time,
                Sire = texts.Sire, SireBreed = texts.SireBreed, Technician = texts.Technician, EmbryoBreed = texts.EmbryoBreed,
            },
            FactKind.Exposure => new Exposure(day, DayOf(row.Number))
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time,
                Sire = texts.Sire, SireBreed = texts.SireBreed,
            },
            FactKind.Sample => new Sample(day)
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time,
                Specimen = texts.Specimen, Tube = texts.Tube,
            },
            FactKind.Result => new TestResult(day, Method(code), OutcomeOf(code))
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time,
                ReportedAt = Ticks.From(row.Number),
                Value = row.Value,
                Unit = texts.Unit, Assay = texts.Assay, Specimen = texts.Specimen, Tube = texts.Tube,
            },
            FactKind.Examination => new Examination(day, Method(code), (Outcome)((code >> 3) & 7))
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time,
                ReportedAt = Ticks.From(row.Number),
                CameAsResult = (code & 64) != 0,
                CorpusLuteum = ((code >> 7) & 3) switch { 1 => false, 2 => true, _ => null },
                Examiner = texts.Examiner,
            },
            FactKind.Treatment => new Treatment(day, (Agent)(code & 7), (code & 8) != 0)
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time,
            },
            FactKind.DoNotBreed => new DoNotBreed(day)
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time, Reason = texts.Reason,
            },
            FactKind.BreedAgain => new BreedAgain(day) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.DryOff => new DryOff(day) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.Departure => new Departure(day)
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time, Reason = texts.Reason,
            },
            FactKind.Confirm => new Confirm(day, texts.Source ?? "", texts.SourceId ?? "")
            {
                Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time,
                Dated = Flag(code),
                Reason = texts.Reason,
            },
            _ => throw new InvalidDataException($"The store holds a fact of unknown kind {row.Kind}."),
        };
    }

    private static bool Flag(long code) => (code & 1) != 0;

    private static TestMethod Method(long code) => (TestMethod)(code & 7);

    private static Outcome? OutcomeOf(long code) => ((code >> 3) & 7) is var outcome && outcome == 0 ? null : (Outcome)outcome;

    private static Day? DayOf(long? number) => number is { } n ? new Day((int)n) : null;
}
