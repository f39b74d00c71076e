using ReproLink.TestSupport.Histories;

namespace ReproLink.Records.Tests;

/// <summary>Facts to post, written as lines.</summary>
public static class Drafts
{
    /// <summary>A draft; the line may carry <c>id</c> and <c>source</c>.</summary>
    public static FactDraft Of(string animal, string line) => new(animal, FactText.Parse(line, 0) with { Id = default, Recorded = default });

    public static async Task<AppendAnswer> Post(this TempStore temp, string animal, string line, NodaTime.Instant? now = null) =>
        (await temp.Store.Facts.Append(temp.Herd, [Of(animal, line)], now ?? TempStore.Noon))[0];
}
