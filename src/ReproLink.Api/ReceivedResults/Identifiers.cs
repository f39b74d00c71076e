namespace ReproLink.Api.ReceivedResults;

/// <summary>
/// Names and identifiers as they are compared when nothing is exactly alike: without blanks, in capitals, and a bare number
/// without the zeros before it, which spreadsheets eat.
/// </summary>
internal static class Identifiers
{
    public static string Key(string text)
    {
        var bare = string.Concat(text.Where(c => !char.IsWhiteSpace(c))).ToUpperInvariant();
        return bare.Length > 0 && bare.All(char.IsAsciiDigit) && bare.TrimStart('0') is var digits
            ? digits.Length == 0 ? "0" : digits
            : bare;
    }
}
