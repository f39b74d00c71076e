using System.Collections.Concurrent;
using System.Security.Cryptography;
using NodaTime;
using ReproLink.Records;

namespace ReproLink.Api.Webhooks.Sending;

/// <summary>Sends what is due: to each webhook one message at a time, to many webhooks at once.</summary>
internal sealed partial class WebhookSender(Store store, WebhookClient client, WebhookOptions options, IClock clock, ILogger<WebhookSender> logger)
{
    private const int MostAtOnce = 32;
    private readonly ConcurrentDictionary<(long Herd, long Webhook), Task> _sending = new();

    /// <summary>How long a webhook is this process's: longer than any attempt takes.</summary>
    public Duration Lease { get; } = options.Timeout + Duration.FromMinutes(1);

    /// <summary>A new message's id; it is no secret, but nobody else's choice.</summary>
    public static string NewId() => "msg_" + Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));

    /// <summary>Begins to send whatever is due now.</summary>
    /// <returns>How many were begun.</returns>
    public int Begin(CancellationToken stopping)
    {
        var begun = 0;
        foreach (var candidate in store.Outbox.Candidates(clock.GetCurrentInstant()))
        {
            var key = (candidate.Herd, candidate.Webhook);
            if (_sending.Count >= MostAtOnce || _sending.ContainsKey(key))
            {
                continue;
            }

            // Only this loop adds; what has ended takes itself out.
            var gate = new TaskCompletionSource();
            _sending[key] = Run(candidate, key, gate.Task, stopping);
            gate.SetResult();
            begun++;
        }

        return begun;
    }

    /// <summary>Waits for what is being sent.</summary>
    public Task Ended() => Task.WhenAll(_sending.Values);

    private async Task Run(SendingCandidate candidate, (long, long) key, Task registered, CancellationToken stopping)
    {
        try
        {
            await registered.ConfigureAwait(ConfigureAwaitOptions.ForceYielding);
            await Send(candidate, stopping);
        }
#pragma warning disable CA1031 // Whatever it is, the message waits on disk and is tried again when the lease is over.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            LogFailure(logger, failure, candidate.Webhook);
        }
        finally
        {
            _sending.TryRemove(key, out _);
        }
    }

    private async Task Send(SendingCandidate candidate, CancellationToken stopping)
    {
        var now = clock.GetCurrentInstant();
        var message = candidate.Untold is { } untold ? Messages.OfChanges(candidate, untold) : null;
        if (await store.Outbox.Claim(candidate, message, now, Lease) is not { } claim)
        {
            return;
        }

        try
        {
            var reply = await client.Post(claim, now, stopping);
            await store.Outbox.Finish(claim, Outcome(claim, reply, now, clock.GetCurrentInstant()));
        }
        catch (OperationCanceledException)
        {
            await store.Outbox.Release(claim, now);
        }
    }

    private static AttemptOutcome Outcome(SendingClaim claim, Reply reply, Instant began, Instant now)
    {
        var gone = WebhookClient.IsGone(reply);
        var over = reply.Error is null || gone || claim.IsTest;
        return new AttemptOutcome(
            began,
            reply.Took,
            reply.Status,
            reply.Error,
            over ? null : RetrySchedule.Next(claim.Id, claim.Try, now, reply.RetryAfter),
            reply.Error is null ? null : RetrySchedule.Hold(claim.Try, now, reply.RetryAfter),
            gone,
            gone ? reply.Error! : $"Every attempt at {claim.Id} failed, and nothing else got through meanwhile. The last: {reply.Error}");
    }

    [LoggerMessage(LogLevel.Error, "Sending to webhook {Webhook} failed in the service itself")]
    private static partial void LogFailure(ILogger logger, Exception failure, long webhook);
}
