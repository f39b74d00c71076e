using static ReproLink.Web.Words.Text;

namespace ReproLink.Web.Words;

/// <content>What is said about forms that cannot be done as they came.</content>
public static partial class Say
{
    public static string LookOver => T("form.nothing-was-done-yet-look-over-what");

    public static string FormTooLarge => T("form.that-is-too-much-at-once");

    public static string FormTooLargeDetail => T("form.a-file-may-have-at-most-10");

    public static string NoText => T("form.this-file-is-no-text");

    public const string NoTextDetail = "Results are read from text: CSV in UTF-8, or JSON. Save the table as “CSV UTF-8” and choose it again. Nothing was stored.";

    public static string MayNotRecord => T("form.your-key-may-look-not-record");

    public static string MayNotPost => T("form.your-key-may-look-at-results-not");

    public static string MayNotDecide => T("form.only-a-manager-or-veterinarian-says");

    public static string MayNotManage => T("form.only-a-manager-says-how-the-files");
}
