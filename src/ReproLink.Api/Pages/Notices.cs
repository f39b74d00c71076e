namespace ReproLink.Api.Pages;

/// <summary>What was just done, in a sentence. Only these can stand in an address.</summary>
internal static class Notices
{
    public static string? Of(string? word) => word switch
    {
        "recorded" => "Recorded.",
        "approved" => "The programme is approved.",
        _ => null,
    };
}
