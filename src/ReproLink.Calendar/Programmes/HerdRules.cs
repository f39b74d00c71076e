using NodaTime;
using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Protocols;
using ReproLink.Calendar.Resynchronisation;

namespace ReproLink.Calendar.Programmes;

/// <summary>What governs a herd: its time zone and the programme versions known at the moment looked at (rules F1, S10).</summary>
public sealed class HerdRules
{
    private readonly ProgrammeVersion[] _versions;
    private readonly WorkDays[] _workDays;
    private readonly Dictionary<string, Protocol> _ownProtocols;
    private volatile DayEnd? _lastEnd;

    /// <summary>How far ahead a day of a kind is looked for, in days.</summary>
    public const int Horizon = 366;

    /// <summary>The rules of a herd.</summary>
    /// <param name="zone">The herd's time zone.</param>
    /// <param name="versions">Saved versions that are not drafts, in any order; none = the defaults govern.</param>
    /// <param name="ownProtocols">The herd's own protocols; an id of theirs that a published one has too means theirs.</param>
    public HerdRules(DateTimeZone zone, IEnumerable<ProgrammeVersion> versions, IEnumerable<Protocol>? ownProtocols = null)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(versions);
        Zone = zone;
        _ownProtocols = (ownProtocols ?? []).ToDictionary(p => p.Id, StringComparer.Ordinal);
        // Of two versions in force from one day the one saved later governs: it was written to replace the other.
        _versions = [.. versions.OrderBy(v => v.Programme.InForceFrom).ThenBy(v => v.Number)];
        HasSavedProgramme = _versions.Length > 0;
        if (!HasSavedProgramme)
        {
            _versions = [ProgrammeVersion.Default];
        }

        _workDays = [.. _versions.Select(v => new WorkDays(v.Programme))];
        Laboratory = new LaboratoryCalendar(this);
    }

    /// <summary>The herd's time zone.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>False while the defaults govern because the herd has saved no programme.</summary>
    public bool HasSavedProgramme { get; }

    /// <summary>The versions in the order in which they come into force.</summary>
    public IReadOnlyList<ProgrammeVersion> Versions => _versions;

    /// <summary>The way of a sample to its answer.</summary>
    public LaboratoryCalendar Laboratory { get; }

    /// <summary>Candidate starts found so far.</summary>
    internal StartMemory Starts { get; } = new();

    /// <summary>The version in force on a day; before the first version, the first (rule S10).</summary>
    public ProgrammeVersion On(Day day) => _versions[IndexOn(day)];

    /// <summary>A protocol by its id: the herd's own, else a published one; null = none of that id.</summary>
    public Protocol? FindProtocol(string? id) =>
        id is not null && _ownProtocols.TryGetValue(id, out var own) ? own : ProtocolLibrary.Find(id);

    /// <summary>The herd's own protocols.</summary>
    public IReadOnlyCollection<Protocol> OwnProtocols => _ownProtocols.Values;

    /// <summary>The work days of the version in force on a day (rule S10: each day by its own version).</summary>
    public WorkDays WorkDaysOn(Day day) => _workDays[IndexOn(day)];

    /// <summary>Whether blood is drawn that day.</summary>
    public bool IsSamplingDay(Day day) => WorkDaysOn(day).IsSampling(day);

    /// <summary>Whether a protocol may start that day.</summary>
    public bool IsStartDay(Day day) => WorkDaysOn(day).IsStart(day);

    /// <summary>The first sampling day on or after a day; null = none within <see cref="Horizon"/>.</summary>
    public Day? FirstSamplingDay(Day from)
    {
        for (var day = from; day <= from + Horizon; day += 1)
        {
            if (IsSamplingDay(day))
            {
                return day;
            }
        }

        return null;
    }

    /// <summary>The last sampling day in [<paramref name="notBefore"/>, <paramref name="notAfter"/>]; null = none.</summary>
    public Day? LastSamplingDay(Day notBefore, Day notAfter)
    {
        for (var day = notAfter; day >= notBefore; day -= 1)
        {
            if (IsSamplingDay(day))
            {
                return day;
            }
        }

        return null;
    }

    /// <summary>The first start day on or after a day; null = none within <see cref="Horizon"/>.</summary>
    public Day? FirstStartDay(Day from)
    {
        for (var day = from; day <= from + Horizon; day += 1)
        {
            if (IsStartDay(day))
            {
                return day;
            }
        }

        return null;
    }

    private int IndexOn(Day day)
    {
        for (var i = _versions.Length - 1; i > 0; i--)
        {
            if (_versions[i].Programme.InForceFrom <= day)
            {
                return i;
            }
        }

        return 0;
    }

    /// <summary>The local day of an instant.</summary>
    public Day DayOf(Instant instant) => Day.From(instant.InZone(Zone).Date);

    /// <summary>The first instant after a local day.</summary>
    public Instant EndOf(Day day)
    {
        // A herd is folded for one day, animal after animal: the zone is asked once.
        if (_lastEnd is not { } last || last.Day != day)
        {
            _lastEnd = last = new DayEnd(day, Zone.AtStartOfDay((day + 1).Date).ToInstant());
        }

        return last.End;
    }

    private sealed record DayEnd(Day Day, Instant End);
}
