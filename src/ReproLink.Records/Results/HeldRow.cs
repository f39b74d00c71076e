using System.Text.Json;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>A row of <c>held</c>.</summary>
internal sealed class HeldRow
{
    public const string Select =
        "SELECT held, sequence, recorded, source, source_id, revision, animal, tube, reason, may_mean, content, draft FROM held";

    public long Held { get; init; }

    public long Sequence { get; init; }

    public long Recorded { get; init; }

    public string Source { get; init; } = "";

    public string SourceId { get; init; } = "";

    public long Revision { get; init; }

    public string? Animal { get; init; }

    public string? Tube { get; init; }

    public string Reason { get; init; } = "";

    public string MayMean { get; init; } = "[]";

    public string Content { get; init; } = "";

    public string? Draft { get; init; }

    public static HeldRow Of(HeldDraft draft) => new()
    {
        Source = draft.Source,
        SourceId = draft.SourceId,
        Animal = draft.Animal,
        Tube = draft.Tube,
        Reason = draft.Reason,
        MayMean = JsonSerializer.Serialize([.. draft.MayMean], RecordsJson.Compact.ListString),
        Content = draft.Content,
        Draft = draft.Draft is { } d ? JsonSerializer.Serialize(KeptDraft.Of(d), RecordsJson.Compact.KeptDraft) : null,
    };

    public FactDraft? ToFactDraft() =>
        Draft is null ? null : JsonSerializer.Deserialize(Draft, RecordsJson.Compact.KeptDraft)!.ToDraft();

    /// <summary>Whether the sender sent the same; why it was held may differ.</summary>
    public bool SameContent(HeldRow other) => Content == other.Content && Animal == other.Animal && Tube == other.Tube;

    public HeldDraft ToHeldDraft() => new(Source, SourceId, Animal, Tube, Reason, Content, ToFactDraft()) { MayMean = Names() };

    /// <summary>The animals whose gate it closes.</summary>
    public IEnumerable<string> Means() => Animal is null ? Names() : Names().Append(Animal).Distinct(StringComparer.Ordinal);

    private List<string> Names() => JsonSerializer.Deserialize(MayMean, RecordsJson.Compact.ListString) ?? [];
}

/// <summary>A row of <c>held_end</c>.</summary>
internal sealed class HeldEndRow
{
    public const string Select = "SELECT ending, ended_by, note, recorded, fact FROM held_end";

    public string Ending { get; init; } = "";

    public string EndedBy { get; init; } = "";

    public string Note { get; init; } = "";

    public long Recorded { get; init; }

    public long? Fact { get; init; }

    public HeldEnd ToEnd() => new(Ending, EndedBy, Note, Ticks.From(Recorded), Fact is { } id ? new FactId(id) : null);
}
