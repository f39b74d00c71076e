using NodaTime;
using ReproLink.Calendar.Dates;

namespace ReproLink.Calendar.Programmes;

/// <summary>A veterinarian's approval of one version (rule S8).</summary>
/// <param name="By">Name on the veterinarian's key.</param>
/// <param name="Recorded">When it was given.</param>
/// <param name="Expires">Last day it holds, included; absent = no end.</param>
public sealed record Approval(string By, Instant Recorded, Day? Expires)
{
    /// <summary>Its place among what was recorded at the same instant.</summary>
    public long Order { get; init; }
}

/// <summary>A veterinarian's refusal of one version (rule S8): no approval given before it holds from then on.</summary>
/// <param name="By">Name on the veterinarian's key.</param>
/// <param name="Recorded">When it was given.</param>
/// <param name="Note">Why, in the veterinarian's words.</param>
public sealed record Refusal(string By, Instant Recorded, string Note)
{
    /// <summary>Its place among what was recorded at the same instant.</summary>
    public long Order { get; init; }

    /// <summary>Whether an approval was given before it: at the same instant and place the refusal counts.</summary>
    public bool Ends(Approval approval)
    {
        ArgumentNullException.ThrowIfNull(approval);
        return approval.Recorded < Recorded || (approval.Recorded == Recorded && approval.Order <= Order);
    }
}

/// <summary>One saved version of a herd's programme.</summary>
/// <param name="Number">1, 2, 3 … in the order saved; 0 = the defaults of a herd that has saved none.</param>
/// <param name="Programme">The policy.</param>
/// <param name="Recorded">When it was saved.</param>
/// <param name="Approvals">Approvals known at the moment looked at.</param>
public sealed record ProgrammeVersion(int Number, Programme Programme, Instant Recorded, IReadOnlyList<Approval> Approvals)
{
    /// <summary>The defaults, unsaved and unapproved.</summary>
    public static readonly ProgrammeVersion Default = new(0, Programme.Default, Instant.MinValue, []);

    /// <summary>Refusals known at the moment looked at.</summary>
    public IReadOnlyList<Refusal> Refusals { get; init; } = [];

    /// <summary>The latest refusal, unless an approval came after it; null = none stands.</summary>
    public Refusal? StandingRefusal => Refusals is [.., var last] && Approvals.All(last.Ends) ? last : null;

    /// <summary>Whether a veterinarian's approval holds on a day, by all that is known.</summary>
    public bool IsApprovedOn(Day day) => IsApproved(day, Instant.MaxValue);

    /// <summary>Whether, at an instant, a veterinarian's approval held for a day; an expiry day is included (S8, S10).</summary>
    /// <param name="day">The day.</param>
    /// <param name="at">Approvals and refusals recorded later do not count.</param>
    public bool IsApproved(Day day, Instant at)
    {
        foreach (var approval in Approvals)
        {
            if (approval.Recorded <= at && !(approval.Expires < day) && !IsEnded(approval, at))
            {
                return true;
            }
        }

        return false;
    }

    private bool IsEnded(Approval approval, Instant at)
    {
        foreach (var refusal in Refusals)
        {
            if (refusal.Recorded <= at && refusal.Ends(approval))
            {
                return true;
            }
        }

        return false;
    }
}
