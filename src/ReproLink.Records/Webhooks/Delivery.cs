using NodaTime;

namespace ReproLink.Records;

/// <summary>Where a message stands. The numbers are stored: never renumber one.</summary>
public enum DeliveryState
{
    /// <summary>It is sent, or will be at <see cref="Delivery.Due"/>.</summary>
    Waiting = 1,

    /// <summary>The receiver took it.</summary>
    Delivered = 2,

    /// <summary>Every attempt failed.</summary>
    Failed = 3,
}

/// <summary>A message to a webhook.</summary>
/// <param name="Id">The same at every attempt.</param>
/// <param name="Type">What kind of message it is.</param>
/// <param name="Body">The text that is sent, to the letter.</param>
/// <param name="Created">When it was begun.</param>
/// <param name="State">Where it stands.</param>
/// <param name="Due">Waiting: when it is tried next.</param>
/// <param name="Attempts">The last attempts, oldest first.</param>
public sealed record Delivery(
    string Id, string Type, string Body, Instant Created, DeliveryState State, Instant? Due, IReadOnlyList<DeliveryAttempt> Attempts);

/// <summary>One attempt to deliver a message.</summary>
/// <param name="Number">1 for the first.</param>
/// <param name="At">When it began.</param>
/// <param name="Took">How long it took.</param>
/// <param name="Status">The receiver's HTTP status; null = there was no answer.</param>
/// <param name="Error">What went wrong, in a sentence; null = delivered.</param>
public sealed record DeliveryAttempt(int Number, Instant At, Duration Took, int? Status, string? Error);

/// <summary>Changes a webhook has not been told of.</summary>
/// <param name="After">Cursor from which the feed tells all of them.</param>
/// <param name="Last">The last of them.</param>
/// <param name="Recorded">When the first and the last were recorded.</param>
/// <param name="Counts">How many of each kind.</param>
/// <param name="Few">All of them, when they are few; else null.</param>
public sealed record UntoldChanges(
    string After, long Last, (Instant First, Instant Last) Recorded, IReadOnlyList<(ChangeKind Kind, long Count)> Counts, IReadOnlyList<Change>? Few);

/// <summary>A webhook with something to send now.</summary>
/// <param name="Location">Of its herd.</param>
/// <param name="Herd">The herd's number.</param>
/// <param name="Webhook">Its number in the herd.</param>
/// <param name="Told">How far it was told when this was read.</param>
/// <param name="Untold">What a new message would tell; null = a message begun before goes first.</param>
public sealed record SendingCandidate(LocationKey Location, long Herd, long Webhook, long Told, UntoldChanges? Untold);

/// <summary>A message that one process, this one, sends now.</summary>
/// <param name="Candidate">Of which webhook.</param>
/// <param name="Number">Its number in the webhook.</param>
/// <param name="Id">Its id.</param>
/// <param name="Body">Its text.</param>
/// <param name="Url">Where to.</param>
/// <param name="Secrets">What to sign with: the present secret, then one that still holds.</param>
/// <param name="Try">Which attempt of the schedule this is; 1 for the first.</param>
/// <param name="IsTest">A test message, which is tried once.</param>
/// <param name="Until">Until when the webhook is this process's.</param>
public sealed record SendingClaim(
    SendingCandidate Candidate, long Number, string Id, string Body, string Url, IReadOnlyList<byte[]> Secrets, int Try, bool IsTest, Instant Until);

/// <summary>What came of an attempt.</summary>
/// <param name="At">When it began.</param>
/// <param name="Took">How long it took.</param>
/// <param name="Status">The receiver's status.</param>
/// <param name="Error">What went wrong; null = delivered.</param>
/// <param name="Next">When it is tried again; null = no more.</param>
/// <param name="HeldUntil">Failed: no new message is begun before.</param>
/// <param name="Gone">The receiver wants no more messages.</param>
/// <param name="StopReason">Why the webhook is stopped if it is.</param>
public sealed record AttemptOutcome(
    Instant At, Duration Took, int? Status, string? Error, Instant? Next, Instant? HeldUntil, bool Gone, string StopReason);
