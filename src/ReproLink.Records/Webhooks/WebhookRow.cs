namespace ReproLink.Records;

/// <summary>A row of <c>webhook</c>, without its secrets.</summary>
internal sealed class WebhookRow
{
    public const string Columns =
        "webhook AS id, url, name, kinds, state, stop_reason, stopped, failing_since, old_secret_until, created, created_by";

    public const string Select = $"SELECT {Columns} FROM webhook WHERE herd = @herd AND state <> 4";

    public long Id { get; init; }

    public string Url { get; init; } = "";

    public string? Name { get; init; }

    public long Kinds { get; init; }

    public long State { get; init; }

    public string? StopReason { get; init; }

    public long? Stopped { get; init; }

    public long? FailingSince { get; init; }

    public long? OldSecretUntil { get; init; }

    public long Created { get; init; }

    public string CreatedBy { get; init; } = "";

    public Webhook ToWebhook() => new(
        Id,
        Url,
        Name,
        ChangeKinds.Of(Kinds),
        (WebhookState)State,
        StopReason is { } reason && Stopped is { } at ? new WebhookStop(reason, Ticks.From(at)) : null,
        Ticks.From(FailingSince),
        Ticks.From(OldSecretUntil),
        Ticks.From(Created),
        CreatedBy);
}
