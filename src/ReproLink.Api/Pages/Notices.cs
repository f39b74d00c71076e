namespace ReproLink.Api.Pages;

/// <summary>What was just done, in a sentence. Only these can stand in an address.</summary>
internal static class Notices
{
    public static string? Of(string? word) => word switch
    {
        "recorded" => "Recorded.",
        "approved" => "The programme is approved.",
        "saved" => "Saved as a new version. It needs the veterinarian's approval before a drug step is released.",
        "draft" => "Saved as a draft: the check found that it cannot work, so it governs nothing.",
        "confirmed" => "The protocol may now be chosen.",
        _ => null,
    };
}
