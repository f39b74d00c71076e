using ReproLink.Api.Changes;
using ReproLink.Api.Reading;
using ReproLink.Records;

namespace ReproLink.Api.Webhooks;

internal static class WebhookMapping
{
    // As the Standard Webhooks specification writes a secret.
    private const string SecretPrefix = "whsec_";

    public static readonly Vocabulary<WebhookState> States =
        new(("active", WebhookState.Active), ("paused", WebhookState.Paused), ("stopped", WebhookState.Stopped));

    public static readonly Vocabulary<DeliveryState> DeliveryStates =
        new(("waiting", DeliveryState.Waiting), ("delivered", DeliveryState.Delivered), ("failed", DeliveryState.Failed));

    public static WebhookAnswer Answer(Webhook webhook, byte[]? secret = null) => new()
    {
        Webhook = webhook.Id,
        Url = webhook.Url,
        Name = webhook.Name,
        Kinds = [.. webhook.Kinds.List.Select(ChangeWords.Kinds.Word)],
        State = States.Word(webhook.State),
        Reason = webhook.Stop?.Reason,
        StoppedAt = webhook.Stop?.At,
        FailingSince = webhook.FailingSince,
        OldSecretUntil = webhook.OldSecretUntil,
        Created = webhook.Created,
        CreatedBy = webhook.CreatedBy,
        Secret = secret is null ? null : SecretPrefix + Convert.ToBase64String(secret),
    };

    public static DeliveryAnswer Answer(Delivery delivery) => new()
    {
        Id = delivery.Id,
        Type = delivery.Type,
        Created = delivery.Created,
        State = DeliveryStates.Word(delivery.State),
        NextAttempt = delivery.Due,
        Attempts = [.. delivery.Attempts.Select(Answer)],
        Body = delivery.Body,
    };

    private static AttemptAnswer Answer(DeliveryAttempt attempt) => new()
    {
        Attempt = attempt.Number,
        At = attempt.At,
        Milliseconds = (long)attempt.Took.TotalMilliseconds,
        Status = attempt.Status,
        Error = attempt.Error,
    };
}
