using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using NodaTime;

namespace ReproLink.Api.Webhooks.Sending;

/// <summary>
/// When a message that failed is tried again: ten attempts over three days, as the Standard Webhooks specification proposes. Each wait is
/// up to a tenth shorter or longer, by the message's id, so that the messages of an outage do not come back all at once.
/// </summary>
internal static class RetrySchedule
{
    private const double Spread = 0.1;

    /// <summary>A receiver that asks for more patience than this gets this much.</summary>
    private static readonly Duration LongestRetryAfter = Duration.FromDays(1);

    /// <summary>While a receiver fails, new messages are begun no more often than this.</summary>
    private static readonly Duration LongestHold = Duration.FromMinutes(30);

    /// <summary>The waits after the first, second … attempt.</summary>
    public static IReadOnlyList<Duration> Waits { get; } =
    [
        Duration.FromSeconds(5), Duration.FromMinutes(5), Duration.FromMinutes(30), Duration.FromHours(2), Duration.FromHours(5),
        Duration.FromHours(10), Duration.FromHours(14), Duration.FromHours(20), Duration.FromHours(24),
    ];

    /// <summary>When a message is tried again; null = it was the last time.</summary>
    public static Instant? Next(string id, int tried, Instant now, Duration? retryAfter) =>
        tried > Waits.Count ? null : now + Duration.Max(Waits[tried - 1] * Factor(id, tried), Bounded(retryAfter));

    /// <summary>Until when no new message is begun after one failed.</summary>
    public static Instant Hold(int tried, Instant now, Duration? retryAfter) =>
        now + Duration.Max(Duration.Min(Waits[Math.Min(tried, Waits.Count) - 1], LongestHold), Bounded(retryAfter));

    private static Duration Bounded(Duration? retryAfter) => Duration.Min(retryAfter ?? Duration.Zero, LongestRetryAfter);

    private static double Factor(string id, int tried)
    {
        var hash = SHA256.HashData(Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{id} {tried}")));
        var share = BinaryPrimitives.ReadUInt32BigEndian(hash) / (double)uint.MaxValue;
        return 1 - Spread + (2 * Spread * share);
    }
}
