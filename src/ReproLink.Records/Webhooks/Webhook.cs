using NodaTime;

namespace ReproLink.Records;

/// <summary>Whether a webhook is told of changes. The numbers are stored: never renumber one; 4 is a deleted one.</summary>
public enum WebhookState
{
    /// <summary>It is told.</summary>
    Active = 1,

    /// <summary>A caller paused it: what changes meanwhile is told when it is resumed.</summary>
    Paused = 2,

    /// <summary>The service stopped it: the reason stands beside.</summary>
    Stopped = 3,
}

/// <summary>An address that is told of a herd's changes.</summary>
/// <param name="Id">Its number in the herd.</param>
/// <param name="Url">Where messages are posted to.</param>
/// <param name="Name">Who receives them, in the caller's words.</param>
/// <param name="Kinds">The kinds of change it is told of.</param>
/// <param name="State">Whether it is told now.</param>
/// <param name="Stop">Why and when the service stopped it; null unless stopped.</param>
/// <param name="FailingSince">The first failed attempt after which none got through; null = the last attempt got through.</param>
/// <param name="OldSecretUntil">Until when messages are signed with the secret before the present one too.</param>
/// <param name="Created">When it was made.</param>
/// <param name="CreatedBy">By which key.</param>
public sealed record Webhook(
    long Id, string Url, string? Name, ChangeKinds Kinds, WebhookState State, WebhookStop? Stop, Instant? FailingSince, Instant? OldSecretUntil,
    Instant Created, string CreatedBy);

/// <summary>Why a webhook was stopped.</summary>
public sealed record WebhookStop(string Reason, Instant At);

/// <summary>A webhook to make.</summary>
public sealed record WebhookDraft(string Url, string? Name, ChangeKinds Kinds);

/// <summary>What to change of a webhook; null = leave it. Active: true resumes it, whatever stopped it; false pauses it.</summary>
public sealed record WebhookChange(string? Url, string? Name, ChangeKinds? Kinds, bool? Active);

/// <summary>Who makes or resumes a webhook.</summary>
/// <param name="Name">The key's name.</param>
/// <param name="Key">The key: once it is revoked the webhook is stopped. Null = a caller without a key, in a trial.</param>
public sealed record WebhookOwner(string Name, long? Key);

/// <summary>What became of a webhook to make.</summary>
/// <param name="Webhook">The new one, or the one that stands in its way; null when the herd has too many.</param>
/// <param name="Secret">Its secret, to be shown once; null when none was made.</param>
public sealed record WebhookCreation(Webhook? Webhook, byte[]? Secret);
