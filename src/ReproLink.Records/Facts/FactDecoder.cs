using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>What identifies a stored fact, beside its content.</summary>
internal readonly record struct FactStamp(FactId Id, string Source, string SourceId, Instant Recorded);

/// <summary>The mirror of <see cref="FactEncoder"/>. One allocation a fact: every herd that is opened comes through here.</summary>
internal static partial class FactDecoder
{
    public static Fact Decode(in FactStamp stamp, in EncodedFact row, FactTexts texts)
    {
        var (id, source, sourceId, recorded) = stamp;
        var day = new Day(row.Day);
        var time = TimeOf(row.Time);
        var code = row.Code;
        return (FactKind)row.Kind switch
        {
            FactKind.Animal => Card(stamp, row, texts),
            FactKind.Arrival => new Arrival(day) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.Calving => new Calving(day) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.Loss => new Loss(day, Flag(code)) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.Oestrus => new Oestrus(day) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.Insemination => new Insemination(day)
            {
                Id = id,
                Source = source,
                SourceId = sourceId,
                Recorded = recorded,
                Time = time,
                Sire = texts.Sire,
                SireBreed = texts.SireBreed,
                Technician = texts.Technician,
            },
            FactKind.NaturalService => new NaturalService(day)
            {
                Id = id,
                Source = source,
                SourceId = sourceId,
                Recorded = recorded,
                Time = time,
                Sire = texts.Sire,
                SireBreed = texts.SireBreed,
                Technician = texts.Technician,
            },
            FactKind.EmbryoTransfer => new EmbryoTransfer(day, (int)(row.Number ?? 0))
            {
                Id = id,
                Source = source,
                SourceId = sourceId,
                Recorded = recorded,
                Time = time,
                Sire = texts.Sire,
                SireBreed = texts.SireBreed,
                Technician = texts.Technician,
                EmbryoBreed = texts.EmbryoBreed,
            },
            FactKind.Exposure => new Exposure(day, DayOf(row.Number))
            {
                Id = id,
                Source = source,
                SourceId = sourceId,
                Recorded = recorded,
                Time = time,
                Sire = texts.Sire,
                SireBreed = texts.SireBreed,
            },
            FactKind.Sample => new Sample(day)
            {
                Id = id,
                Source = source,
                SourceId = sourceId,
                Recorded = recorded,
                Time = time,
                Specimen = texts.Specimen,
                Tube = texts.Tube,
                Dispatched = DayOf(row.Number),
            },
            FactKind.Result => Result(stamp, row, texts),
            FactKind.Examination => Examined(stamp, row, texts),
            FactKind.Treatment => new Treatment(day, (Agent)(code & 7), (code & 8) != 0)
            {
                Id = id,
                Source = source,
                SourceId = sourceId,
                Recorded = recorded,
                Time = time,
                Reason = texts.Reason,
            },
            FactKind.DoNotBreed => new DoNotBreed(day)
            {
                Id = id,
                Source = source,
                SourceId = sourceId,
                Recorded = recorded,
                Time = time,
                Reason = texts.Reason,
            },
            FactKind.BreedAgain => new BreedAgain(day) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.DryOff => new DryOff(day) { Id = id, Source = source, SourceId = sourceId, Recorded = recorded, Time = time },
            FactKind.Departure => new Departure(day)
            {
                Id = id,
                Source = source,
                SourceId = sourceId,
                Recorded = recorded,
                Time = time,
                Reason = texts.Reason,
            },
            FactKind.Confirm => Confirmed(stamp, row, texts),
            _ => throw new InvalidDataException($"The store holds a fact of unknown kind {row.Kind}."),
        };
    }
}
