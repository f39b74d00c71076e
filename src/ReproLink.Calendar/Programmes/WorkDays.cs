using System.Collections.Immutable;
using NodaTime;
using ReproLink.Calendar.Dates;

namespace ReproLink.Calendar.Programmes;

/// <summary>Which days of one programme version are for drawing, starting, dispatching and laboratory work.</summary>
public sealed class WorkDays
{
    private readonly int _sampling;
    private readonly int _start;
    private readonly int _dispatch;
    private readonly int _working;
    private readonly HashSet<Day> _farmClosed;
    private readonly HashSet<Day> _laboratoryClosed;

    /// <summary>The work days of a programme.</summary>
    public WorkDays(Programme programme)
    {
        ArgumentNullException.ThrowIfNull(programme);
        Programme = programme;
        _sampling = Mask(programme.Week.SamplingDays);
        _start = Mask(programme.Week.StartDays);
        _dispatch = Mask(programme.Laboratory.DispatchDays);
        _working = Mask(programme.Laboratory.WorkingDays);
        _farmClosed = [.. programme.Week.ClosedDates];
        _laboratoryClosed = [.. programme.Laboratory.ClosedDates];
    }

    /// <summary>The programme.</summary>
    public Programme Programme { get; }

    /// <summary>Whether blood is drawn that day: a sampling weekday that is no closed date (B1).</summary>
    public bool IsSampling(Day day) => Has(_sampling, day) && !_farmClosed.Contains(day);

    /// <summary>Whether a protocol may start that day (S2: never a closed date).</summary>
    public bool IsStart(Day day) => Has(_start, day) && !_farmClosed.Contains(day);

    /// <summary>Whether samples leave the farm that day (L1).</summary>
    public bool IsDispatch(Day day) => Has(_dispatch, day) && !_farmClosed.Contains(day);

    /// <summary>Whether answers are made that day: the laboratory's working days; on the farm, the sampling days (L1, L2).</summary>
    public bool IsWorking(Day day) => Programme.Laboratory.Kind == LaboratoryKind.OnFarm
        ? IsSampling(day)
        : Has(_working, day) && !_laboratoryClosed.Contains(day);

    private static bool Has(int mask, Day day) => (mask & (1 << (int)day.Weekday)) != 0;

    private static int Mask(ImmutableArray<IsoDayOfWeek> weekdays)
    {
        var mask = 0;
        foreach (var weekday in weekdays)
        {
            mask |= 1 << (int)weekday;
        }

        return mask;
    }
}
