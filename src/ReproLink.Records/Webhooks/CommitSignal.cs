using System.Threading.Channels;

namespace ReproLink.Records;

/// <summary>Tells one waiter that something was written. Raised often, it is told once.</summary>
public sealed class CommitSignal
{
    private readonly Channel<bool> _raised = Channel.CreateBounded<bool>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite });

    internal CommitSignal()
    {
    }

    internal void Raise() => _raised.Writer.TryWrite(true);

    /// <summary>Waits until something is written, or was since the last time; at most as long as given.</summary>
    public async Task Wait(TimeSpan atMost, CancellationToken ct)
    {
        using var ended = CancellationTokenSource.CreateLinkedTokenSource(ct);
        ended.CancelAfter(atMost);
        try
        {
            await _raised.Reader.ReadAsync(ended.Token).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (!ct.IsCancellationRequested)
        {
            // Nothing was: the waiter looks for itself.
        }
    }
}
