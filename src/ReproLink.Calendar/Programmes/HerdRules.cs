using NodaTime;
using ReproLink.Calendar.Dates;

namespace ReproLink.Calendar.Programmes;

/// <summary>What governs a herd: its time zone and the programme versions known at the moment looked at (rules F1, S10).</summary>
public sealed class HerdRules
{
    private readonly ProgrammeVersion[] _versions;

    /// <summary>The rules of a herd.</summary>
    /// <param name="zone">The herd's time zone.</param>
    /// <param name="versions">Saved versions that are not drafts, in any order; none = the defaults govern.</param>
    public HerdRules(DateTimeZone zone, IEnumerable<ProgrammeVersion> versions)
    {
        ArgumentNullException.ThrowIfNull(zone);
        ArgumentNullException.ThrowIfNull(versions);
        Zone = zone;
        // Of two versions in force from one day the one saved later governs: it was written to replace the other.
        _versions = [.. versions.OrderBy(v => v.Programme.InForceFrom).ThenBy(v => v.Number)];
        HasSavedProgramme = _versions.Length > 0;
        if (!HasSavedProgramme)
        {
            _versions = [ProgrammeVersion.Default];
        }
    }

    /// <summary>The herd's time zone.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>False while the defaults govern because the herd has saved no programme.</summary>
    public bool HasSavedProgramme { get; }

    /// <summary>The versions in the order in which they come into force.</summary>
    public IReadOnlyList<ProgrammeVersion> Versions => _versions;

    /// <summary>The version in force on a day; before the first version, the first (rule S10).</summary>
    public ProgrammeVersion On(Day day)
    {
        for (var i = _versions.Length - 1; i > 0; i--)
        {
            if (_versions[i].Programme.InForceFrom <= day)
            {
                return _versions[i];
            }
        }

        return _versions[0];
    }

    /// <summary>The local day of an instant.</summary>
    public Day DayOf(Instant instant) => Day.From(instant.InZone(Zone).Date);

    /// <summary>The first instant after a local day.</summary>
    public Instant EndOf(Day day) => Zone.AtStartOfDay((day + 1).Date).ToInstant();
}
