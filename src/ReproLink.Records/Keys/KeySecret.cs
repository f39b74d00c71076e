using System.Security.Cryptography;
using System.Text;

namespace ReproLink.Records;

/// <summary>Secrets of keys: 32 random bytes as text. So long a secret needs no slow hash.</summary>
internal static class KeySecret
{
    private const string Prefix = "rl_";
    private const string Digits = "abcdefghijklmnopqrstuvwxyz234567";
    private const int Bytes = 32;

    public static string Create()
    {
        var text = new StringBuilder(Prefix);
        var (bits, count) = (0, 0);
        foreach (var b in RandomNumberGenerator.GetBytes(Bytes))
        {
            (bits, count) = ((bits << 8) | b, count + 8);
            while (count >= 5)
            {
                count -= 5;
                text.Append(Digits[(bits >> count) & 31]);
            }

            bits &= (1 << count) - 1;
        }

        return text.Append(Digits[(bits << (5 - count)) & 31]).ToString();
    }

    public static byte[] Hash(string secret) => SHA256.HashData(Encoding.UTF8.GetBytes(secret));
}
