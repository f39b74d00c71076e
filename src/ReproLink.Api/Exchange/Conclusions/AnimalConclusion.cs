using NodaTime;
using ReproLink.Api.Exchange.Messages;
using ReproLink.Calendar.Status;
using ReproLink.Records;

namespace ReproLink.Api.Exchange.Conclusions;

/// <summary>An animal as her facts tell it today, and since when they tell it.</summary>
internal sealed record AnimalConclusion(LocationKey Herd, DateTimeZone Zone, AnimalState State, Instant Modified)
{
    public ExchangeIdentifier Location => ExchangeAddress.Identifier(Herd);

    /// <summary>What it is known by: its sender's words, or ours where nobody sent it.</summary>
    public MetaContract Meta(string? source, string? sourceId, string kind, bool isDeleted = false) => new()
    {
        Source = source ?? ExchangeWords.Source,
        SourceId = sourceId ?? $"{kind}:{State.Animal}",
        IsDeleted = isDeleted ? true : null,
        Modified = Modified,
    };
}
