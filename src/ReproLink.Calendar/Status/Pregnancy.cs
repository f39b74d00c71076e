using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Facts;

namespace ReproLink.Calendar.Status;

/// <summary>A standing pregnancy: what dates it and what confirmed it.</summary>
public sealed class Pregnancy
{
    internal Pregnancy(FactId foundBy, Day sample)
    {
        FoundBy = foundBy;
        FoundOn = sample;
        LastPositive = sample;
        LastPositiveBy = foundBy;
    }

    /// <summary>The result or examination that found it.</summary>
    public FactId FoundBy { get; }

    /// <summary>Its sample day.</summary>
    public Day FoundOn { get; }

    /// <summary>Sample day of the latest valid <c>pregnant</c>.</summary>
    public Day LastPositive { get; internal set; }

    /// <summary>The fact of that day.</summary>
    public FactId LastPositiveBy { get; internal set; }

    /// <summary>Earliest day 0 that may date it; absent = its age is unknown (no service on record).</summary>
    public Day? From { get; internal set; }

    /// <summary>Latest day 0 that may date it.</summary>
    public Day? To { get; internal set; }

    /// <summary>The service that dates it; absent for an exposure or an unknown age.</summary>
    public ServiceAttempt? By { get; internal set; }

    /// <summary>The exposure that dates it.</summary>
    public ExposureSpell? ByExposure { get; internal set; }

    /// <summary>The later service that may date it as well, after a conflict T7 b that ended <c>pregnant</c>.</summary>
    public ServiceAttempt? AlsoBy { get; internal set; }

    /// <summary>Found before day 90 in milk by blood or milk and not yet retested (rule T2).</summary>
    public bool Caution { get; internal set; }

    /// <summary>
    /// Found a second time in the days of caution. Residue of the last pregnancy fades; what is found twice may be a calf: an
    /// <c>open</c> then counts only as many days after the last <c>pregnant</c> as T7 a and c want (rule T2).
    /// </summary>
    public bool CautionTwice { get; internal set; }

    /// <summary>First day on which an <c>open</c> of blood or milk is a retest, by this pregnancy alone; absent = any day past the caution.</summary>
    internal Day? RetestFrom => Caution && CautionTwice ? LastPositive + HistoryFold.SecondSampleDays : null;

    internal void DateBy(ServiceAttempt service)
    {
        By = service;
        From = service.DayZero;
        To = service.DayZero;
    }

    // The bull may have served on any day from his first to his last; not after the day on which she was found pregnant.
    internal void DateBy(ExposureSpell spell)
    {
        ByExposure = spell;
        From = spell.First;
        To = spell.Last is { } last ? Day.Min(last, FoundOn) : FoundOn;
    }
}
