using ReproLink.Calendar.Dates;
using ReproLink.Calendar.Programmes;

namespace ReproLink.Web.Programmes;

/// <summary>Where a saved version stands on a day.</summary>
public enum Standing
{
    /// <summary>It failed the check: it governs nothing.</summary>
    Draft = 1,

    /// <summary>It comes into force later.</summary>
    ToCome = 2,

    /// <summary>It governs the day.</summary>
    InForce = 3,

    /// <summary>A later version took its place.</summary>
    Replaced = 4,
}

/// <summary>How the veterinarian stands to it on a day.</summary>
public enum Approving
{
    /// <summary>No approval was given.</summary>
    NotApproved = 1,

    /// <summary>An approval holds.</summary>
    Approved = 2,

    /// <summary>Every approval given has ended.</summary>
    Expired = 3,

    /// <summary>The last word is a refusal: nothing is released until an approval follows it.</summary>
    Refused = 4,
}

/// <summary>The states of versions.</summary>
public static class VersionState
{
    /// <summary>Where a version stands.</summary>
    /// <param name="version">The version.</param>
    /// <param name="draft">Whether it was saved as a draft.</param>
    /// <param name="inForce">Number of the version in force that day.</param>
    /// <param name="today">The day.</param>
    public static Standing Of(ProgrammeVersion version, bool draft, int inForce, Day today)
    {
        ArgumentNullException.ThrowIfNull(version);
        return draft ? Standing.Draft
            : version.Number == inForce ? Standing.InForce
            : version.Programme.InForceFrom > today ? Standing.ToCome
            : Standing.Replaced;
    }

    /// <summary>How the veterinarian stands to it, and the last day that goes by (absent = no end, or no approval).</summary>
    public static (Approving Approving, Day? Until, string? By) Approval(ProgrammeVersion version, Day today)
    {
        ArgumentNullException.ThrowIfNull(version);
        if (version.StandingRefusal is { } refusal)
        {
            return (Approving.Refused, null, refusal.By);
        }

        if (version.Approvals.Count == 0)
        {
            return (Approving.NotApproved, null, null);
        }

        var longest = version.Approvals.MaxBy(a => a.Expires ?? Day.Latest)!;
        return (version.IsApprovedOn(today) ? Approving.Approved : Approving.Expired, longest.Expires, longest.By);
    }
}
