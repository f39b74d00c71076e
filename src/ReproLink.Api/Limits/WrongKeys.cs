using System.Collections.Concurrent;
using System.Threading.RateLimiting;
using ReproLink.Records;

namespace ReproLink.Api.Limits;

/// <summary>
/// Wrong keys, counted by address. An address that sent too many is turned away for the rest of the minute, and so is a right
/// key first used from there: whoever guesses cannot tell it from a wrong one. Keys in use go on working, so that one program
/// with an old key does not lock out the farm behind the same address.
/// </summary>
internal sealed class WrongKeys : IDisposable
{
    public const string Detail = "Too many wrong keys came from this address.";

    private readonly PartitionedRateLimiter<string>? _left;
    private readonly ConcurrentDictionary<long, bool> _inUse = new();

    public WrongKeys(ServiceLimits limits)
    {
        if (limits.WrongKeysPerMinute > 0)
        {
            _left = PartitionedRateLimiter.Create<string, string>(address => RateLimitPartition.GetFixedWindowLimiter(
                address, _ => new FixedWindowRateLimiterOptions { PermitLimit = limits.WrongKeysPerMinute, Window = TimeSpan.FromMinutes(1) }));
        }
    }

    /// <summary>Whether a request is turned away; counts it when its key is wrong.</summary>
    /// <param name="address">Where it comes from.</param>
    /// <param name="right">The key it brought; null = a wrong one.</param>
    /// <returns>The refusal, which knows when to try again; null = let it in, or say that the key is wrong.</returns>
    public RateLimitLease? Refuses(string address, ApiKey? right)
    {
        if (_left is null || (right is not null && _inUse.ContainsKey(right.Id)))
        {
            return null;
        }

        // A right key takes nothing: it asks whether anything is left.
        var lease = _left.AttemptAcquire(address, right is null ? 1 : 0);
        if (lease.IsAcquired && right is not null)
        {
            _inUse.TryAdd(right.Id, true);
        }

        return lease.IsAcquired ? null : lease;
    }

    public void Dispose() => _left?.Dispose();
}
