using NodaTime;

namespace ReproLink.Api.Composition;

/// <summary>What the command line decides about the host; what is absent comes from configuration.</summary>
public sealed record ApiHostOptions
{
    /// <summary>Path of the database file; absent = configuration key <c>Database</c>, else <c>reprolink.db</c>.</summary>
    public string? Database { get; init; }

    /// <summary>An invented herd for trying out: no key is needed from loopback, and the clock may be set.</summary>
    public bool Demo { get; init; }

    /// <summary>Whether webhooks may name plain http and addresses of private networks; the demo allows it anyway.</summary>
    public bool AllowPrivateWebhooks { get; init; }

    /// <summary>Whether requests are limited, counted and, where asked for, logged. Off only to measure what that costs: no setting does it.</summary>
    public bool Watched { get; init; } = true;

    /// <summary>Where the clock stands; absent = configuration key <c>Clock</c>, else the system's clock.</summary>
    public Instant? Clock { get; init; }
}
