using NodaTime;
using ReproLink.Api.Access;
using ReproLink.Api.Problems;
using ReproLink.Api.Reading;
using ReproLink.Calendar.Dates;

namespace ReproLink.Api.Facts;

/// <summary>
/// What is refused at the door, by the fact alone and the clock (rule F4). Whatever contradicts other facts is let in and
/// settled in the fold, so that the order of posting never matters.
/// </summary>
internal sealed class Door(HerdRequest request)
{
    /// <summary>How far ahead of the herd's today a day may lie: senders in other time zones, clocks a little wrong.</summary>
    private const int DaysAhead = 1;

    private readonly Day _today = request.Today;

    public HerdRequest Request => request;

    /// <summary>A day on which something happened.</summary>
    public Day? Past(ObjectReader reader, string name, bool required = false)
    {
        if (reader.Day(name, required) is not { } day)
        {
            return null;
        }

        if (day - _today <= DaysAhead)
        {
            return day;
        }

        reader.Refuse(name, ProblemTypes.InTheFuture, AllowedDays);
        return null;
    }

    /// <summary>An instant at which something was reported about a day.</summary>
    public Instant? Reported(ObjectReader reader, string name, Day? about)
    {
        if (reader.Instant(name) is not { } instant)
        {
            return null;
        }

        var day = Day.From(instant.InZone(request.Zone).Date);
        if (day - _today > DaysAhead)
        {
            reader.Refuse(name, ProblemTypes.InTheFuture, AllowedDays);
        }
        else if (about is { } sampled && day < sampled)
        {
            reader.Refuse(name, ProblemTypes.InvalidValue, $"an instant on or after the sample day, {sampled}, in {request.Herd.TimeZone}");
        }

        return instant;
    }

    private string AllowedDays => $"at most {DaysAhead} day after the herd's today, {_today}";
}
