namespace ReproLink.Api.Reading;

/// <summary>What a text may be.</summary>
/// <param name="Max">Most characters.</param>
/// <param name="IsName">Whether it names something: then blanks around it are refused, because "1042" and "1042 " would be two animals.</param>
internal sealed record TextRule(int Max, bool IsName)
{
    /// <summary>Names and ids.</summary>
    public static readonly TextRule Name = new(100, true);

    /// <summary>A word or two, such as a pen or breed; kept as received.</summary>
    public static readonly TextRule Label = new(100, false);

    /// <summary>Words a person writes; kept as received.</summary>
    public static readonly TextRule Words = new(500, false);

    /// <summary>Whether it may have lines and tabs: a text kept as it was sent.</summary>
    public bool Lines { get; init; }

    public string Allowed => IsName
        ? $"text of 1 to {Max} characters, without blanks at its ends or control characters"
        : $"text of 1 to {Max} characters, without control characters";

    public bool Accepts(string text)
    {
        if (text.Length == 0 || text.Length > Max || string.IsNullOrWhiteSpace(text))
        {
            return false;
        }

        foreach (var c in text)
        {
            if (char.IsControl(c) && !(Lines && c is '\n' or '\r' or '\t'))
            {
                return false;
            }
        }

        return !IsName || (!char.IsWhiteSpace(text[0]) && !char.IsWhiteSpace(text[^1]));
    }
}
