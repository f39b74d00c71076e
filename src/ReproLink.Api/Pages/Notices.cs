namespace ReproLink.Api.Pages;

/// <summary>What was just done, in a sentence. Only these can stand in an address.</summary>
internal static class Notices
{
    public static string? Of(string? word) => word switch
    {
        "recorded" => "Recorded.",
        "recorded-before" => "It was on record already: nothing was recorded twice.",
        "undone" => "Undone: it does not count any more.",
        "withdrawn" => "Withdrawn: it does not count any more.",
        "withdrawn-before" => "It was withdrawn before.",
        "started" => "The round is started: its list is frozen.",
        "approved" => "The programme is approved.",
        "refused" => "The programme is refused: no drug step is released until it is approved.",
        "seen" => "Noted. From now on you are shown what changes from here.",
        "link-revoked" => "The link is revoked: it answers nothing any more.",
        "saved" => "Saved as a new version. It needs the veterinarian's approval before a drug step is released.",
        "draft" => "Saved as a draft: the check found that it cannot work, so it governs nothing.",
        "confirmed" => "The protocol may now be chosen.",
        _ => null,
    };
}
