using NodaTime;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>
/// A fact's content as columns. Two facts have the same content when these are equal and the animal is the same; what the
/// columns mean for each kind stands here, and <see cref="FactDecoder"/> is its mirror.
/// </summary>
/// <param name="Day">The day it occurred.</param>
/// <param name="Kind">The kind.</param>
/// <param name="Time">Milliseconds of the day; -1 = none.</param>
/// <param name="Code">Small words and flags.</param>
/// <param name="Number">A day, an age or an instant.</param>
/// <param name="Value">The measured value.</param>
/// <param name="Words">Texts as JSON.</param>
internal readonly record struct EncodedFact(int Day, int Kind, int Time, long Code, long? Number, double? Value, string? Words);

internal static class FactEncoder
{
    public const int NoTime = -1;
    private const int TicksPerMillisecond = 10_000;

    public static EncodedFact Encode(Fact fact) => fact switch
    {
        AnimalCard f => Of(f, Flag(f.Dated) | (f.Parity is { } p ? 2 | ((long)p * 4) : 0), f.Born?.Number, new FactTexts
        {
            Breed = f.Breed,
            Pen = f.Pen,
            Identifiers = f.Identifiers.Count == 0 ? null : f.Identifiers,
        }),
        Loss f => Of(f, Flag(f.Examined)),
        EmbryoTransfer f => Of(f, 0, f.EmbryoAgeDays, ServiceTexts(f) with { EmbryoBreed = f.EmbryoBreed }),
        Service f => Of(f, 0, null, ServiceTexts(f)),
        Exposure f => Of(f, 0, f.Until?.Number, new FactTexts { Sire = f.Sire, SireBreed = f.SireBreed }),
        Sample f => Of(f, 0, f.Dispatched?.Number, new FactTexts { Specimen = f.Specimen, Tube = f.Tube }),
        TestResult f => OfResult(f),
        Examination f => Of(f, ExaminationCode(f), Ticks.Of(f.ReportedAt), new FactTexts { Examiner = f.Examiner }),
        Treatment f => Of(f, (long)f.Agent | (Flag(f.NotDone) * 8), null, f.Reason is null ? null : new FactTexts { Reason = f.Reason }),
        DoNotBreed f => Of(f, 0, null, new FactTexts { Reason = f.Reason }),
        Departure f => Of(f, 0, null, new FactTexts { Reason = f.Reason }),
        Confirm f => Of(f, Flag(f.Dated), null, new FactTexts
        {
            Source = f.ConfirmsSource,
            SourceId = f.ConfirmsSourceId,
            Reason = f.Reason,
        }),
        Arrival or Calving or Oestrus or BreedAgain or DryOff => Of(fact, 0),
        _ => throw new ArgumentException($"A fact of kind {fact.Kind} cannot be stored.", nameof(fact)),
    };

    private static EncodedFact Of(Fact fact, long code, long? number = null, FactTexts? texts = null, double? value = null) =>
        new(fact.Day.Number, (int)fact.Kind, Milliseconds(fact.Time), code, number, value, texts?.Write());

    private static EncodedFact OfResult(TestResult fact)
    {
        // A column cannot hold it: it would come back as "no value".
        if (fact.Value is { } value && double.IsNaN(value))
        {
            throw new ArgumentException("A measured value must be a number.", nameof(fact));
        }

        var texts = new FactTexts { Unit = fact.Unit, Assay = fact.Assay, Specimen = fact.Specimen, Tube = fact.Tube };
        var code = (long)fact.Method | ((long)(fact.Outcome ?? 0) * 8);
        return Of(fact, code, Ticks.Of(fact.ReportedAt), texts, fact.Value);
    }

    private static long ExaminationCode(Examination fact) =>
        (long)fact.Method
        | ((long)fact.Outcome * 8)
        | (Flag(fact.CameAsResult) * 64)
        | (fact.CorpusLuteum switch { null => 0L, false => 1L, true => 2L } * 128);

    private static FactTexts ServiceTexts(Service fact) =>
        new() { Sire = fact.Sire, SireBreed = fact.SireBreed, Technician = fact.Technician };

    private static long Flag(bool flag) => flag ? 1 : 0;

    private static int Milliseconds(LocalTime? time) => time is { } t ? (int)(t.TickOfDay / TicksPerMillisecond) : NoTime;
}
