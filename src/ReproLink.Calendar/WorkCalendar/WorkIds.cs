using System.Security.Cryptography;
using System.Text;

namespace ReproLink.Calendar.WorkCalendar;

/// <summary>Ids of work items: from what the work is, never from when it falls, so that a feed can follow it.</summary>
internal static class WorkIds
{
    private const string Digits = "0123456789abcdefghjkmnpqrstvwxyz";
    private const int Length = 13;

    public static string Of(params ReadOnlySpan<string> parts)
    {
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\0', parts)), hash);
        var rest = BitConverter.ToUInt64(hash);
        Span<char> text = stackalloc char[Length];
        for (var i = Length - 1; i >= 0; i--)
        {
            text[i] = Digits[(int)(rest & 31)];
            rest >>= 5;
        }

        return $"w_{text}";
    }
}
