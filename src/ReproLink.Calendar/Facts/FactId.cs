namespace ReproLink.Calendar.Facts;

/// <summary>
/// The identity of one fact within its herd, written <c>f_</c> and 13 letters and digits.
/// </summary>
/// <remarks>
/// It is derived from the sender's identity of the fact (source, sourceId, revision), never from the order of arrival:
/// the same facts posted in any order carry the same ids, so that the calendar is the same to the letter.
/// </remarks>
/// <param name="Value">64 bits.</param>
public readonly record struct FactId(long Value)
{
    private const string Digits = "0123456789abcdefghjkmnpqrstvwxyz";
    private const int Length = 13;

    /// <summary>The id as text, e.g. <c>f_0c5t9x2m7h1ka</c>.</summary>
    public override string ToString() => string.Create(Length + 2, Value, static (text, value) =>
    {
        text[0] = 'f';
        text[1] = '_';
        var rest = unchecked((ulong)value);
        for (var i = Length + 1; i >= 2; i--)
        {
            text[i] = Digits[(int)(rest & 31)];
            rest >>= 5;
        }
    });

    /// <summary>Reads the text form.</summary>
    /// <returns>False when the text is no fact id; <paramref name="id"/> is then the default.</returns>
    public static bool TryParse(string? text, out FactId id)
    {
        id = default;
        if (text is null || text.Length != Length + 2 || !text.StartsWith("f_", StringComparison.Ordinal))
        {
            return false;
        }

        ulong value = 0;
        foreach (var c in text.AsSpan(2))
        {
            var digit = Digits.IndexOf(c, StringComparison.Ordinal);
            if (digit < 0)
            {
                return false;
            }

            value = (value << 5) | (uint)digit;
        }

        id = new FactId(unchecked((long)value));
        return true;
    }
}
