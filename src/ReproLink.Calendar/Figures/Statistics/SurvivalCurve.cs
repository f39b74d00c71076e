namespace ReproLink.Calendar.Figures.Statistics;

/// <summary>A step of a survival curve.</summary>
/// <param name="Days">The day of the events.</param>
/// <param name="AtRisk">Still followed that day.</param>
/// <param name="Events">Events that day.</param>
/// <param name="Survival">Share without the event after that day, 0 to 1.</param>
/// <param name="StandardError">Greenwood's; absent at 0.</param>
/// <param name="Limits">Log-log limits; absent at 0 and 1: they have no value there.</param>
public readonly record struct SurvivalStep(int Days, int AtRisk, int Events, double Survival, double? StandardError, Interval? Limits);

/// <summary>
/// Survival by Kaplan and Meier (1958, J Am Stat Assoc 53:457) with the variance of Greenwood (1926) and log-log limits
/// (Kalbfleisch and Prentice 1980). Who is censored on a day of events is still at risk on it; competing events censor.
/// </summary>
/// <remarks>Checked against R survival 3.5.3, <c>conf.type = "log-log"</c>.</remarks>
public sealed class SurvivalCurve
{
    // Two doubles made by different products may differ in the last digits and mean the same share.
    private const double Same = 1e-9;

    private readonly int _last;

    /// <summary>The curve of subjects in any order.</summary>
    public SurvivalCurve(IReadOnlyCollection<FollowUp> subjects)
    {
        ArgumentNullException.ThrowIfNull(subjects);
        Subjects = subjects.Count;
        var steps = new List<SurvivalStep>();
        var (survival, sum) = (1.0, 0.0);
        foreach (var day in DayCount.Of(subjects))
        {
            _last = day.Days;
            if (day.Events == 0)
            {
                continue;
            }

            Events += day.Events;
            double left = day.AtRisk - day.Events;
            survival *= left / day.AtRisk;
            sum += left > 0 ? day.Events / (day.AtRisk * left) : double.NaN;
            steps.Add(Step(day, survival, sum));
        }

        Steps = steps;
    }

    /// <summary>How many were followed.</summary>
    public int Subjects { get; }

    /// <summary>How many had the event.</summary>
    public int Events { get; }

    /// <summary>The days of events, in order.</summary>
    public IReadOnlyList<SurvivalStep> Steps { get; }

    /// <summary>The last day anyone was followed to; the curve says nothing after it.</summary>
    public int LastDay => _last;

    /// <summary>The curve on a day: the latest step on or before it; null = before the first event, where all are left.</summary>
    public SurvivalStep? On(int days)
    {
        SurvivalStep? found = null;
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

    /// <summary>
    /// The day by which a share had the event, 0.5 for the median. Where the curve is flat at exactly that height it is the
    /// middle of the flat stretch, as R has it; null = not reached.
    /// </summary>
    public double? Quantile(double share) => Crossing(1 - share, step => step.Survival);

    /// <summary>
    /// Limits of a quantile: where the log-log limits of the curve cross its height (Brookmeyer and Crowley 1982); an end is
    /// null where they do not.
    /// </summary>
    public (double? Low, double? High) QuantileLimits(double share) =>
        (Crossing(1 - share, step => step.Limits?.Low), Crossing(1 - share, step => step.Limits?.High));

    private double? Crossing(double height, Func<SurvivalStep, double?> curve)
    {
        for (var i = 0; i < Steps.Count; i++)
        {
            if (curve(Steps[i]) is not { } value || value > height + Same)
            {
                continue;
            }

            if (Math.Abs(value - height) > Same)
            {
                return Steps[i].Days;
            }

            var end = Steps.Skip(i + 1).FirstOrDefault(s => curve(s) is { } later && later < height - Same);
            return (Steps[i].Days + (end.Events > 0 ? end.Days : _last)) / 2.0;
        }

        return null;
    }

    private static SurvivalStep Step(DayCount day, double survival, double sum)
    {
        if (survival <= 0)
        {
            return new SurvivalStep(day.Days, day.AtRisk, day.Events, 0, null, null);
        }

        var spread = Confidence.Z * Math.Sqrt(sum) / Math.Log(survival);
        var limits = new Interval(Math.Pow(survival, Math.Exp(-spread)), Math.Pow(survival, Math.Exp(spread)));
        return new SurvivalStep(day.Days, day.AtRisk, day.Events, survival, survival * Math.Sqrt(sum), limits);
    }
}
