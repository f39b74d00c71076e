namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>One subject followed from day 0 until something ended it.</summary>
/// <param name="Days">Days followed, 0 or more.</param>
/// <param name="End">What ended it.</param>
public readonly record struct FollowUp(int Days, FollowUpEnd End);

/// <summary>What ended a follow-up.</summary>
public enum FollowUpEnd
{
    /// <summary>Still without an event when the looking stopped.</summary>
    Censored = 0,

    /// <summary>The event looked for.</summary>
    Event = 1,

    /// <summary>Another event after which the first can no longer come, such as leaving the herd.</summary>
    Competing = 2,
}

/// <summary>How many ended on one day and how, in order of days.</summary>
/// <param name="Days">The day.</param>
/// <param name="AtRisk">Still followed at its start; who ends on the day is among them.</param>
/// <param name="Events">Events looked for.</param>
/// <param name="Competing">Competing events.</param>
/// <param name="Censored">Ended without an event.</param>
internal readonly record struct DayCount(int Days, int AtRisk, int Events, int Competing, int Censored)
{
    public static List<DayCount> Of(IReadOnlyCollection<FollowUp> subjects)
    {
        var days = new List<DayCount>();
        var atRisk = subjects.Count;
        foreach (var day in subjects.GroupBy(s => s.Days).OrderBy(g => g.Key))
        {
            var (events, competing, all) = (0, 0, 0);
            foreach (var subject in day)
            {
                all++;
                events += subject.End == FollowUpEnd.Event ? 1 : 0;
                competing += subject.End == FollowUpEnd.Competing ? 1 : 0;
            }

            days.Add(new DayCount(day.Key, atRisk, events, competing, all - events - competing));
            atRisk -= all;
        }

        return days;
    }
}
