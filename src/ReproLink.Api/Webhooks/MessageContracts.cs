using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Webhooks;

/// <summary>What is posted to a webhook.</summary>
public sealed record WebhookMessage
{
    /// <summary>`herd.changed`: something changed, read it from `/changes`. `webhook.test`: a test.</summary>
    /// <example>herd.changed</example>
    [Words("herd.changed", "webhook.test")]
    public required string Type { get; init; }

    /// <summary>When the last of the changes was recorded, or the test was asked for.</summary>
    public required Instant Timestamp { get; init; }

    /// <summary>What changed, and where to read on.</summary>
    public required WebhookData Data { get; init; }
}

/// <summary>What changed, and where to read on.</summary>
public sealed record WebhookData
{
    /// <summary>The location.</summary>
    public required MessageLocation Location { get; init; }

    /// <summary>The webhook's number.</summary>
    /// <example>1</example>
    public required long Webhook { get; init; }

    /// <summary>`/changes?after=` with it reads every change of this message. Who follows the feed sends the cursor of its own instead.</summary>
    /// <example>p1e</example>
    public string? After { get; init; }

    /// <summary>The cursor of the last change of this message: who has read so far has seen all of it.</summary>
    /// <example>p21</example>
    public string? Cursor { get; init; }

    /// <summary>How many changes of each kind.</summary>
    /// <example>{"fact":3}</example>
    public IReadOnlyDictionary<string, long>? Counts { get; init; }

    /// <summary>Every change of this message, when there are at most 20; absent = there are more, read the feed.</summary>
    public IReadOnlyList<ChangeHint>? Changes { get; init; }
}

/// <summary>A location.</summary>
public sealed record MessageLocation
{
    /// <summary>Its scheme.</summary>
    /// <example>farm</example>
    public required string Scheme { get; init; }

    /// <summary>Its id in the scheme.</summary>
    /// <example>north-ridge</example>
    public required string Id { get; init; }
}

/// <summary>A change, without what it says.</summary>
public sealed record ChangeHint
{
    /// <summary>Its cursor in the feed.</summary>
    /// <example>p1f</example>
    public required string Cursor { get; init; }

    /// <summary>What it was, in the words of the feed.</summary>
    /// <example>fact</example>
    [Words("herd", "fact", "withdrawal", "programme", "approval", "held", "held-end", "protocol", "round", "refusal")]
    public required string Kind { get; init; }

    /// <summary>The animal; absent when it was about the herd.</summary>
    /// <example>1042</example>
    public string? Animal { get; init; }

    /// <summary>fact, withdrawal: the fact.</summary>
    /// <example>f_0c5t9x2m7h1ka</example>
    public string? FactId { get; init; }

    /// <summary>held, held-end: the held result.</summary>
    /// <example>h_0c5t9x2m7h1ka</example>
    public string? HeldId { get; init; }
}
