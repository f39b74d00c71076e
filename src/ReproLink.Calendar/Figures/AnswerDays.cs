using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Calendar.Figures;

/// <summary>
/// By when a service has its answer if all goes as the programme says: the report of the first sampling day on or after the
/// wanted day. What is younger is pending: those open by an early return are known sooner than the pregnant, and would drag every rate down.
/// </summary>
internal sealed class AnswerDays(HerdRules rules, Day asOf)
{
    private readonly Dictionary<Day, Day> _by = [];

    /// <summary>Whether services of a day are too recent for their answers.</summary>
    public bool IsPending(Day service)
    {
        if (!_by.TryGetValue(service, out var by))
        {
            var wanted = service + rules.On(service).Programme.Test.TargetDaysPostService;
            by = rules.FirstSamplingDay(wanted) is { } draw && rules.Laboratory.Report(draw) is { } report ? report.Day : wanted;
            _by.Add(service, by);
        }

        return asOf < by;
    }
}
