using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Rounds;

/// <summary>How long a drawn sample may wait before it leaves (rule L3).</summary>
public static class Storage
{
    /// <summary>The source of the sample facts that rounds append; the sourceId is the tube.</summary>
    public const string Source = "round";

    /// <summary>Most days from drawing to dispatch; later, its result may not decide anything.</summary>
    public const int MostDays = 14;

    /// <summary>Whether a sample sent on a day had waited too long.</summary>
    public static bool IsTooLong(Day drawn, Day dispatched) => dispatched - drawn > MostDays;

    /// <summary>Whether a sample left too late.</summary>
    public static bool IsSpoiled(Sample sample)
    {
        ArgumentNullException.ThrowIfNull(sample);
        return sample.Dispatched is { } dispatched && IsTooLong(sample.Day, dispatched);
    }

    /// <summary>Whether a sample went into a tube of a round: only of those is it known whether they left.</summary>
    public static bool IsOfRound(Sample sample)
    {
        ArgumentNullException.ThrowIfNull(sample);
        return sample.Source == Source && sample.Tube is not null;
    }

    /// <summary>
    /// The sample that a result speaks of and that had waited too long; null = none. A result that names no tube may be of any
    /// sample of its day.
    /// </summary>
    /// <param name="result">The result.</param>
    /// <param name="samples">The animal's samples of its day.</param>
    public static Sample? SpoiledSampleOf(TestResult result, IReadOnlyList<Sample> samples)
    {
        ArgumentNullException.ThrowIfNull(result);
        ArgumentNullException.ThrowIfNull(samples);
        var named = result.Tube is null ? null : samples.FirstOrDefault(s => s.Tube == result.Tube);
        return named is null ? samples.FirstOrDefault(IsSpoiled) : IsSpoiled(named) ? named : null;
    }
}
