using System.Text;

namespace ReproLink.Api.Intake;

/// <summary>Files in other letters than UTF-8.</summary>
internal static class SenderLetters
{
    /// <summary>A file as UTF-8 without a byte order mark, which is believed before the mapping; null when the letters are others.</summary>
    public static byte[]? ToUtf8(byte[] bytes, Encoding letters)
    {
        var (encoding, mark) = bytes switch
        {
            [0xEF, 0xBB, 0xBF, ..] => (Encoding.UTF8, 3),
            [0xFF, 0xFE, ..] => (Encoding.Unicode, 2),
            [0xFE, 0xFF, ..] => (Encoding.BigEndianUnicode, 2),
            _ => (letters, 0),
        };
        var strict = Encoding.GetEncoding(encoding.CodePage, EncoderFallback.ExceptionFallback, DecoderFallback.ExceptionFallback);
        try
        {
            return Encoding.UTF8.GetBytes(strict.GetString(bytes, mark, bytes.Length - mark));
        }
        catch (DecoderFallbackException)
        {
            return null;
        }
    }
}
