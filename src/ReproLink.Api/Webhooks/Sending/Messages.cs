using System.Text.Json;
using NodaTime;
using ReproLink.Api.Changes;
using ReproLink.Api.Composition;
using ReproLink.Records;

namespace ReproLink.Api.Webhooks.Sending;

/// <summary>
/// Makes messages. They are thin: they say that something changed and where to read it, never what a result said or whom a
/// fact came from, for they leave the service for an address somebody typed in.
/// </summary>
internal static class Messages
{
    public const string HerdChanged = "herd.changed";
    public const string Test = "webhook.test";

    public static NewMessage OfChanges(SendingCandidate candidate, UntoldChanges untold) => Of(new WebhookMessage
    {
        Type = HerdChanged,
        Timestamp = untold.Recorded.Last,
        Data = new WebhookData
        {
            Location = Place(candidate.Location),
            Webhook = candidate.Webhook,
            After = untold.After,
            Cursor = ChangeLog.CursorOf(untold.Last),
            Counts = untold.Counts.ToDictionary(c => ChangeWords.Kinds.Word(c.Kind), c => c.Count),
            Changes = untold.Few is { } few ? [.. few.Select(Hint)] : null,
        },
    });

    public static NewMessage OfTest(LocationKey location, long webhook, Instant now) => Of(new WebhookMessage
    {
        Type = Test,
        Timestamp = now,
        Data = new WebhookData { Location = Place(location), Webhook = webhook },
    });

    private static NewMessage Of(WebhookMessage message) =>
        new(WebhookSender.NewId(), message.Type, JsonSerializer.Serialize(message, JsonSetup.Options));

    private static MessageLocation Place(LocationKey location) => new() { Scheme = location.Scheme, Id = location.Id };

    private static ChangeHint Hint(Change change) => new()
    {
        Cursor = ChangeLog.CursorOf(change.Sequence),
        Kind = ChangeWords.Kinds.Word(change.Kind),
        Animal = change.Animal,
        FactId = change.Kind is ChangeKind.Fact or ChangeKind.Withdrawal ? change.Subject : null,
        HeldId = change.Kind is ChangeKind.Held or ChangeKind.HeldEnd ? change.Subject : null,
    };
}
