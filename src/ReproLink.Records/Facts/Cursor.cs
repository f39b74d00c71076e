using System.Globalization;

namespace ReproLink.Records;

/// <summary>A place in a list, as text that callers hand back and do not read.</summary>
public static class Cursor
{
    private const string Prefix = "p";

    /// <summary>Whether a text is a cursor; lists refuse any other with an <see cref="ArgumentException"/>.</summary>
    public static bool IsValid(string? text) => TryRead(text, out _);

    internal static string Write(long sequence) => Prefix + sequence.ToString("x", CultureInfo.InvariantCulture);

    /// <summary>The sequence number after which to go on; null = from the start.</summary>
    internal static long Read(string? text)
    {
        if (text is null)
        {
            return 0;
        }

        return TryRead(text, out var sequence) ? sequence : throw new ArgumentException($"'{text}' is no cursor of this service.", nameof(text));
    }

    private static bool TryRead(string? text, out long sequence)
    {
        sequence = 0;
        return text is not null
            && text.StartsWith(Prefix, StringComparison.Ordinal)
            && text.Length <= 17
            && long.TryParse(text.AsSpan(1), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out sequence)
            && sequence >= 0;
    }
}
