using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Webhooks;

/// <summary>A message to a webhook.</summary>
public sealed record DeliveryAnswer
{
    /// <summary>The message's id: the `webhook-id` of every attempt.</summary>
    /// <example>msg_4f9d2a71c3b84e06a5d1e2f3b4c5d6e7</example>
    public required string Id { get; init; }

    /// <summary>What kind of message it is.</summary>
    /// <example>herd.changed</example>
    [Words("herd.changed", "webhook.test")]
    public required string Type { get; init; }

    /// <summary>When it was begun.</summary>
    public required Instant Created { get; init; }

    /// <summary>`waiting` for its next attempt, `delivered`, or `failed` for good.</summary>
    /// <example>delivered</example>
    [Words("waiting", "delivered", "failed")]
    public required string State { get; init; }

    /// <summary>waiting: when it is tried next.</summary>
    public Instant? NextAttempt { get; init; }

    /// <summary>The last 50 attempts, oldest first.</summary>
    public required IReadOnlyList<AttemptAnswer> Attempts { get; init; }

    /// <summary>The body that is sent, to the letter.</summary>
    /// <example>{"type":"webhook.test","timestamp":"2026-10-05T12:00:00Z","data":{"location":{"scheme":"farm","id":"north-ridge"},"webhook":1}}</example>
    public required string Body { get; init; }
}

/// <summary>One attempt to deliver a message.</summary>
public sealed record AttemptAnswer
{
    /// <summary>1 for the first.</summary>
    /// <example>1</example>
    public required int Attempt { get; init; }

    /// <summary>When it began.</summary>
    public required Instant At { get; init; }

    /// <summary>How long it took, in milliseconds.</summary>
    /// <example>84</example>
    public required long Milliseconds { get; init; }

    /// <summary>The receiver's HTTP status; absent = there was no answer.</summary>
    /// <example>204</example>
    public int? Status { get; init; }

    /// <summary>What went wrong; absent = it was delivered.</summary>
    /// <example>The receiver answered 500.</example>
    public string? Error { get; init; }
}

/// <summary>Messages, the latest first.</summary>
public sealed record DeliveryPage
{
    /// <summary>The messages.</summary>
    public required IReadOnlyList<DeliveryAnswer> Deliveries { get; init; }

    /// <summary>Send it as `after` for the next page; absent after the last.</summary>
    /// <example>p1f</example>
    public string? Next { get; init; }
}
