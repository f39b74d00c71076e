namespace ReproLink.Records;

/// <summary>A draft as a held result keeps it.</summary>
internal sealed record KeptDraft(
    string Animal, string Source, string SourceId, int Day, int Kind, int Time, long Code, long? Number, double? Value, string? Words)
{
    public static KeptDraft Of(FactDraft draft)
    {
        var c = FactEncoder.Encode(draft.Fact);
        return new KeptDraft(
            draft.Animal, draft.Fact.Source, draft.Fact.SourceId, c.Day, c.Kind, c.Time, c.Code, c.Number, c.Value, c.Words);
    }

    public FactDraft ToDraft()
    {
        var content = new EncodedFact(Day, Kind, Time, Code, Number, Value, Words);
        var texts = Words is null ? FactTexts.None : FactTexts.Read(Words);
        return new FactDraft(Animal, FactDecoder.Decode(new FactStamp(default, Source, SourceId, default), content, texts));
    }
}
