using ReproLink.Web.Words;

namespace ReproLink.Api.Pages;

/// <summary>What was just done, in a sentence. Only what the table of sentences has under its key can stand in an address.</summary>
internal static class Notices
{
    private const string Key = "notice.";

    public static string? Of(string? word) => word is not null && Language.English.Keys.Contains(Key + word) ? Text.T(Key + word) : null;
}
