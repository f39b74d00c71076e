using NodaTime;
using ReproLink.Calendar.Dates;

namespace ReproLink.Calendar.Programmes;

/// <summary>A veterinarian's approval of one version (rule S8).</summary>
/// <param name="By">Name on the veterinarian's key.</param>
/// <param name="Recorded">When it was given.</param>
/// <param name="Expires">Last day it holds, included; absent = no end.</param>
public sealed record Approval(string By, Instant Recorded, Day? Expires);

/// <summary>One saved version of a herd's programme.</summary>
/// <param name="Number">1, 2, 3 … in the order saved; 0 = the defaults of a herd that has saved none.</param>
/// <param name="Programme">The policy.</param>
/// <param name="Recorded">When it was saved.</param>
/// <param name="Approvals">Approvals known at the moment looked at.</param>
public sealed record ProgrammeVersion(int Number, Programme Programme, Instant Recorded, IReadOnlyList<Approval> Approvals)
{
    /// <summary>The defaults, unsaved and unapproved.</summary>
    public static readonly ProgrammeVersion Default = new(0, Programme.Default, Instant.MinValue, []);

    /// <summary>Whether a veterinarian's approval holds on a day.</summary>
    public bool IsApprovedOn(Day day)
    {
        foreach (var approval in Approvals)
        {
            if (approval.Expires is not { } expires || day <= expires)
            {
                return true;
            }
        }

        return false;
    }
}
