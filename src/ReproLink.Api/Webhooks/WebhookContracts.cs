using NodaTime;
using ReproLink.Api.OpenApi;

namespace ReproLink.Api.Webhooks;

/// <summary>An address to be told of changes.</summary>
public sealed record WebhookInput
{
    /// <summary>Where messages are posted to: https, on the public internet unless the service allows others.</summary>
    /// <example>https://herd.example/hooks/reprolink</example>
    public required string Url { get; init; }

    /// <summary>Who receives them.</summary>
    /// <example>Herd software</example>
    public string? Name { get; init; }

    /// <summary>The kinds of change to be told of; absent = all.</summary>
    /// <example>["fact","withdrawal"]</example>
    public IReadOnlyList<string>? Kinds { get; init; }
}

/// <summary>What to change; what is absent stays.</summary>
public sealed record WebhookUpdate
{
    /// <summary>Where messages are posted to from now on.</summary>
    /// <example>https://herd.example/hooks/reprolink</example>
    public string? Url { get; init; }

    /// <summary>Who receives them.</summary>
    /// <example>Herd software</example>
    public string? Name { get; init; }

    /// <summary>The kinds of change to be told of from now on.</summary>
    /// <example>["fact","withdrawal"]</example>
    public IReadOnlyList<string>? Kinds { get; init; }

    /// <summary>`paused` holds messages back; `active` resumes, also after the service stopped it: what changed meanwhile is told in one message.</summary>
    /// <example>paused</example>
    [Words("active", "paused")]
    public string? State { get; init; }
}

/// <summary>An address that is told of changes.</summary>
public sealed record WebhookAnswer
{
    /// <summary>Its number.</summary>
    /// <example>1</example>
    public required long Webhook { get; init; }

    /// <summary>Where messages are posted to.</summary>
    /// <example>https://herd.example/hooks/reprolink</example>
    public required string Url { get; init; }

    /// <summary>Who receives them.</summary>
    /// <example>Herd software</example>
    public string? Name { get; init; }

    /// <summary>The kinds of change it is told of.</summary>
    /// <example>["fact","withdrawal"]</example>
    public required IReadOnlyList<string> Kinds { get; init; }

    /// <summary>`active`; `paused` by a caller; `stopped` by the service.</summary>
    /// <example>active</example>
    [Words("active", "paused", "stopped")]
    public required string State { get; init; }

    /// <summary>stopped: why.</summary>
    /// <example>The receiver answered 410: it wants no more messages.</example>
    public string? Reason { get; init; }

    /// <summary>stopped: when.</summary>
    public Instant? StoppedAt { get; init; }

    /// <summary>The first failed attempt after which none got through; absent = the last one got through.</summary>
    public Instant? FailingSince { get; init; }

    /// <summary>Until when messages carry a signature by the secret before the present one too.</summary>
    public Instant? OldSecretUntil { get; init; }

    /// <summary>When it was made.</summary>
    public required Instant Created { get; init; }

    /// <summary>The key for which it acts: the one that made or last resumed it. Once that is revoked it is stopped.</summary>
    /// <example>herd-app</example>
    public required string CreatedBy { get; init; }

    /// <summary>What messages are signed with. It is answered once, when it is made, and cannot be read again.</summary>
    /// <example>whsec_C2FVsBQIhrscChlQIMV+b5sSYspob7oD</example>
    public string? Secret { get; init; }
}

/// <summary>The webhooks of a herd.</summary>
public sealed record WebhookList
{
    /// <summary>Oldest first.</summary>
    public required IReadOnlyList<WebhookAnswer> Webhooks { get; init; }
}

/// <summary>How a secret is replaced.</summary>
public sealed record RotationInput
{
    /// <summary>For how many hours messages carry a signature by the present secret too, 0 to 168; absent = 24.</summary>
    /// <example>24</example>
    public int? OverlapHours { get; init; }
}
