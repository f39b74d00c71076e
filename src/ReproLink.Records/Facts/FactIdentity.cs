using System.Buffers;
using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;
using ReproLink.Calendar.Facts;

namespace ReproLink.Records;

/// <summary>
/// Ids made from what the sender calls the fact, never from the order of arrival: the same facts posted in any order have
/// the same ids.
/// </summary>
internal static class FactIdentity
{
    /// <param name="source">Who sent it.</param>
    /// <param name="sourceId">The sender's id.</param>
    /// <param name="revision">0, then one more each time the pair is appended again after a withdrawal.</param>
    /// <param name="salt">0; one more where another fact of the herd already has the id.</param>
    public static FactId Of(string source, string sourceId, long revision, byte salt)
    {
        const int Tail = 32;
        var buffer = ArrayPool<byte>.Shared.Rent(Encoding.UTF8.GetMaxByteCount(source.Length + sourceId.Length) + Tail);
        var length = Encoding.UTF8.GetBytes(source, buffer);
        buffer[length++] = 0;
        length += Encoding.UTF8.GetBytes(sourceId, buffer.AsSpan(length));
        buffer[length++] = 0;
        revision.TryFormat(buffer.AsSpan(length), out var digits, default, null);
        length += digits;
        if (salt > 0)
        {
            buffer[length++] = salt;
        }

        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(buffer.AsSpan(0, length), hash);
        ArrayPool<byte>.Shared.Return(buffer);
        return new FactId(BinaryPrimitives.ReadInt64BigEndian(hash));
    }
}
