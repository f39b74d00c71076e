using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Reading;

/// <summary>The moment a read looks at (rule F1): facts as known at an instant, as of a day.</summary>
/// <param name="AsOf">The day; null = not asked for.</param>
/// <param name="KnownAt">The instant; null = now.</param>
/// <param name="Today">The herd's today at that instant.</param>
internal readonly record struct MomentQuery(Day? AsOf, Instant? KnownAt, Day Today)
{
    public static MomentQuery Read(QueryReader query, HerdRequest request)
    {
        var asOf = query.Day("asOf");
        var knownAt = query.Instant("knownAt");
        if (knownAt is { } known && known > request.Now)
        {
            query.Refuse("knownAt", known.ToString(), $"not after now, {request.Now}");
        }

        return new MomentQuery(asOf, knownAt, Day.From((knownAt ?? request.Now).InZone(request.Zone).Date));
    }
}
