using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Figures.Statistics;
using ReproLink.Calendar.Status;

namespace ReproLink.Calendar.Figures.Histories;

/// <summary>One lactation as the figures see it.</summary>
/// <param name="animal">The herd's own name of her.</param>
/// <param name="log">What the fold saw of it.</param>
/// <param name="asOf">The day looked at.</param>
internal sealed class LactationRecord(string animal, LactationLog log, Day asOf)
{
    /// <summary>A conception this many days before the next calving fits it (rule of the open data set; metrics of six real herds use it).</summary>
    public const int ShortestCarried = 262;

    /// <summary>See <see cref="ShortestCarried"/>.</summary>
    public const int LongestCarried = 302;

    public string Animal { get; } = animal;

    public LactationLog Log { get; } = log;

    public Day AsOf { get; } = asOf;

    /// <summary>The calving it began with; null = none on record.</summary>
    public Day? Calved => Log.Calving?.Day;

    /// <summary>Which lactation; 0 = heifer; null = not known.</summary>
    public int? Parity { get; init; }

    /// <summary>Her breed; null = not on record.</summary>
    public string? Breed { get; init; }

    /// <summary>The calving that ended it.</summary>
    public Day? NextCalving { get; init; }

    /// <summary>Days from calving before which she is not meant to be served.</summary>
    public int WaitingPeriod { get; init; }

    /// <summary>Her services, in order.</summary>
    public List<ServiceRecord> Services { get; } = [];

    /// <summary>The day she left for good.</summary>
    public Day? LeftOn => Log.Away is [.., { Until: null } away] ? away.From : null;

    /// <summary>The day from which she is not to be bred, never taken back.</summary>
    public Day? NotBredFrom => Log.NotToBeBred is [.., { Until: null } spell] ? spell.From : null;

    /// <summary>The last day of it that is looked at.</summary>
    public Day LastDay => NextCalving is { } calved ? calved - 1 : LeftOn is { } left ? left - 1 : AsOf;

    /// <summary>The service she stayed pregnant by; null = none known.</summary>
    public ServiceRecord? Conceived => Services.FindLast(s => s.IsMaintained);

    /// <summary>
    /// Days from calving to the pregnancy that was kept, or to what ended the looking: leaving, not to be bred, the bull, the
    /// first service whose outcome is not known yet, the day looked at. Only with a calving on record.
    /// </summary>
    public (FollowUp FollowUp, LeftOutReason? Why) Follow()
    {
        var calved = Calved!.Value;
        if (Conceived is { } conceived)
        {
            return (new FollowUp(Math.Max(conceived.Day - calved, 0), FollowUpEnd.Event), null);
        }

        var (end, how, why) = (AsOf, FollowUpEnd.Censored, LeftOutReason.NotReached);
        void Earlier(Day? day, FollowUpEnd other, LeftOutReason reason)
        {
            if (day is { } at && at < end)
            {
                (end, how, why) = (at, other, reason);
            }
        }

        // She did conceive, somewhere between: she was surely open only before the longest gestation.
        Earlier(NextCalving - LongestCarried, FollowUpEnd.Censored, LeftOutReason.ConceptionUnknown);
        Earlier(LeftOn, FollowUpEnd.Competing, LeftOutReason.Left);
        Earlier(NotBredFrom, FollowUpEnd.Competing, LeftOutReason.NotToBeBred);
        Earlier(Log.Exposures.Count > 0 ? Log.Exposures.Min(e => e.First) : null, FollowUpEnd.Censored, LeftOutReason.WithBull);
        if (how == FollowUpEnd.Censored && Services is [.., { Outcome: ServiceOutcome.Unknown } last])
        {
            Earlier(last.Day, FollowUpEnd.Censored, LeftOutReason.NoAnswerYet);
        }

        return (new FollowUp(Math.Max(end - calved, 0), how), why);
    }
}
