namespace ReproLink.Web.Words;

/// <content>What is said about forms that cannot be done as they came.</content>
public static partial class Say
{
    public const string LookOver = "Nothing was done yet: look over what you typed, and send it.";

    public const string FormTooLarge = "That is too much at once";

    public const string FormTooLargeDetail = "A file may have at most 10 MB. Nothing was stored: split it, and send the parts.";

    public const string NoText = "This file is no text";

    public const string NoTextDetail = "Results are read from text: CSV in UTF-8, or JSON. Save the table as “CSV UTF-8” and choose it again. Nothing was stored.";

    public const string MayNotRecord = "Your key may look, not record.";

    public const string MayNotPost = "Your key may look at results, not take them in.";

    public const string MayNotDecide = "Only a manager or veterinarian says whose a held result is.";

    public const string MayNotManage = "Only a manager says how the files of a sender are read.";
}
