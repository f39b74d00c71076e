namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>A step of two cumulative incidences.</summary>
/// <param name="Days">The day.</param>
/// <param name="AtRisk">Still followed that day.</param>
/// <param name="Event">Share that had the event by then.</param>
/// <param name="EventError">Its standard error.</param>
/// <param name="Competing">Share that had the competing event by then.</param>
/// <param name="CompetingError">Its standard error.</param>
public readonly record struct IncidenceStep(int Days, int AtRisk, double Event, double EventError, double Competing, double CompetingError)
{
    /// <summary>Interval of <see cref="Event"/>.</summary>
    public Interval? EventLimits => Limits(Event, EventError);

    /// <summary>Interval of <see cref="Competing"/>.</summary>
    public Interval? CompetingLimits => Limits(Competing, CompetingError);

    // Log-log limits of the share itself: they stay between 0 and 1, where they have no value.
    private static Interval? Limits(double share, double error)
    {
        if (share is <= 0 or >= 1)
        {
            return null;
        }

        var spread = Confidence.Z * error / (share * Math.Log(share));
        return new Interval(Math.Pow(share, Math.Exp(-spread)), Math.Pow(share, Math.Exp(spread)));
    }
}

/// <summary>
/// Share with an event by each day when a competing event, such as leaving, can come first: the estimator of Aalen and
/// Johansen (1978, Scand J Stat 5:141) with the standard error of the infinitesimal jackknife.
/// </summary>
/// <remarks>Checked against R survival 3.5.3 on 604 lactations.</remarks>
public sealed class CumulativeIncidence
{
    /// <summary>The incidences of subjects in any order.</summary>
    public CumulativeIncidence(IReadOnlyCollection<FollowUp> subjects)
    {
        ArgumentNullException.ThrowIfNull(subjects);
        Subjects = subjects.Count;
        var steps = new List<IncidenceStep>();
        var (one, two) = (new Influence(), new Influence());
        var survival = 1.0;
        var atRiskSlope = 0.0;
        foreach (var day in DayCount.Of(subjects))
        {
            var (first, second) = ((double)day.Events / day.AtRisk, (double)day.Competing / day.AtRisk);
            var left = survival * (1 - first - second);
            // What one subject's weight does to the survival of the day: who had an event, and who had none.
            double Slope(bool ended) => (atRiskSlope * (1 - first - second)) - (survival * ((ended ? 1 : 0) - first - second) / day.AtRisk);
            var (ended, stayed) = (left > 0 ? Slope(true) / left : 0, left > 0 ? Slope(false) / left : 0);
            one.Step(day, day.Events, day.Competing, first, survival, atRiskSlope, ended, stayed);
            two.Step(day, day.Competing, day.Events, second, survival, atRiskSlope, ended, stayed);
            atRiskSlope = Slope(false);
            survival = left;
            if (day.Events + day.Competing > 0)
            {
                var stay = day.AtRisk - day.Events - day.Competing - day.Censored;
                steps.Add(new IncidenceStep(day.Days, day.AtRisk, one.Share, one.Error(stay), two.Share, two.Error(stay)));
            }
        }

        Steps = steps;
    }

    /// <summary>How many were followed.</summary>
    public int Subjects { get; }

    /// <summary>The days of events of either kind, in order.</summary>
    public IReadOnlyList<IncidenceStep> Steps { get; }

    /// <summary>The incidences on a day: the latest step on or before it; null = before the first event of either kind.</summary>
    public IncidenceStep? On(int days)
    {
        IncidenceStep? found = null;
        foreach (var step in Steps)
        {
            if (step.Days > days)
            {
                break;
            }

            found = step;
        }

        return found;
    }

    // The jackknife: the sum over subjects of (change of the share by a subject's weight)². Who has ended changes it as
    // a + slope × share from then on, so three sums are enough whatever the number of days.
    private sealed class Influence
    {
        private double _atRisk;
        private double _aa;
        private double _ab;
        private double _bb;

        public double Share { get; private set; }

        public void Step(DayCount day, int mine, int other, double hazard, double survival, double slope, double ended, double stayed)
        {
            double Change(int had) => _atRisk + (slope * hazard) + (survival * (had - hazard) / day.AtRisk);
            Share += survival * hazard;
            End(mine, Change(1), ended);
            End(other, Change(0), ended);
            End(day.Censored, Change(0), stayed);
            _atRisk = Change(0);
        }

        public double Error(int stay) =>
            Math.Sqrt(Math.Max(_aa + (2 * _ab * Share) + (_bb * Share * Share) + (stay * _atRisk * _atRisk), 0));

        private void End(int subjects, double change, double slope)
        {
            var a = change - (slope * Share);
            _aa += subjects * a * a;
            _ab += subjects * a * slope;
            _bb += subjects * slope * slope;
        }
    }
}
