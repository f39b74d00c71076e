using ReproLink.Records;

namespace ReproLink.Api.Webhooks.Sending;

/// <summary>
/// Sends in the background. It looks when this process has written, and now and then, for another process may have, or the time
/// of a retry come. A pause between looks lets what changes in quick succession become one message.
/// </summary>
internal sealed partial class WebhookService(Store store, WebhookSender sender, WebhookOptions options, ILogger<WebhookService> logger) : BackgroundService
{
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(100);
    private static readonly TimeSpan Rest = TimeSpan.FromSeconds(1);

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        if (!options.Deliver)
        {
            return;
        }

        try
        {
            while (true)
            {
                await Task.Delay(Pause, stoppingToken);
                Look(stoppingToken);
                await store.Committed.Wait(Rest, stoppingToken);
            }
        }
        catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
        {
            await sender.Ended();
        }
    }

    private void Look(CancellationToken stopping)
    {
        try
        {
            sender.Begin(stopping);
        }
#pragma warning disable CA1031 // Whatever it is, changes wait on disk and the next look finds them.
        catch (Exception failure)
#pragma warning restore CA1031
        {
            LogFailure(logger, failure);
        }
    }

    [LoggerMessage(LogLevel.Error, "Looking for webhook messages to send failed")]
    private static partial void LogFailure(ILogger logger, Exception failure);
}
