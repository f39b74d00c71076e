using System.Globalization;

namespace ReproLink.Calendar.Rounds;

/// <summary>Names of tubes: <c>R12-003</c> is the third of the herd's twelfth round. A name is never used again.</summary>
public static class TubeNames
{
    private const string Digits = "000";

    /// <summary>The name of a tube.</summary>
    public static string Of(int round, int number) =>
        string.Create(CultureInfo.InvariantCulture, $"R{round}-{number.ToString(Digits, CultureInfo.InvariantCulture)}");

    /// <summary>
    /// Reads a name as people and spreadsheets write it: any case, blanks anywhere, leading zeros or none. Null = it is none.
    /// </summary>
    public static (int Round, int Number)? Read(string? text)
    {
        var bare = string.Concat((text ?? "").Where(c => !char.IsWhiteSpace(c)));
        var dash = bare.IndexOf('-', StringComparison.Ordinal);
        return dash > 1
            && bare[0] is 'R' or 'r'
            && TryNumber(bare.AsSpan(1, dash - 1), out var round)
            && TryNumber(bare.AsSpan(dash + 1), out var number)
                ? (round, number)
                : null;
    }

    /// <summary>The name as it stands on the label, however it was written; other texts stay as they are.</summary>
    public static string AsPrinted(string text) => Read(text) is var (round, number) ? Of(round, number) : text;

    private static bool TryNumber(ReadOnlySpan<char> digits, out int number) =>
        int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out number) && number > 0;
}
